import { z } from 'zod'

import { WriteHeaders } from '../../contract/idempotency-key.ts'
import { Id } from '../../contract/ids.ts'
import { pageOf } from '../../contract/pagination.ts'
import { Problem } from '../../contract/problems.ts'
import { FOLLOWED_STATES } from './followed/repository.ts'

export const RowWarning = z.object({
  row: z.int().describe('Row of the file; its header is row 1'),
  column: z.string(),
  code: z.string(),
  detail: z.string(),
})

export type RowWarning = z.infer<typeof RowWarning>

export const IMPORT_KINDS = ['notebook', 'release'] as const

/** What an import came to: what is stored of it beside the evidence itself. */
export const ImportSummary = z.object({
  rows: z.int().describe('Runs in the file'),
  sessions: z.int().describe('Sessions that were taken in now'),
  sessionsKnown: z
    .int()
    .describe('Sessions of a notebook that an earlier import brought in with the same values'),
  pilots: z.int(),
  submissions: z
    .array(z.object({ id: Id, row: z.int().describe('First row of the session') }))
    .describe('What a notebook became, one per session'),
  setupsAdded: z.array(Id).describe('Set-ups that came with a release'),
  componentsAdded: z.array(Id).describe('Components that came with a release'),
  replaces: Id.nullable().describe('The import of a release that this one took the place of'),
  warnings: z.array(RowWarning).describe('What is doubtful, and was taken'),
  cautions: z.array(z.string()).describe('What must not be flown comes first'),
})

export type ImportSummary = z.infer<typeof ImportSummary>

export const ImportedFile = z.object({
  part: z.enum(['notebook', 'runs', 'systematic', 'setups', 'components']),
  sha256: z.string().describe('Of the file as it came, hexadecimal'),
  sizeBytes: z.int(),
})

export type ImportedFile = z.infer<typeof ImportedFile>

export const Import = z
  .object({
    id: Id,
    kind: z.enum(IMPORT_KINDS),
    createdAt: z.iso.datetime(),
    withdrawnAt: z.iso
      .datetime()
      .nullable()
      .describe('From then on nothing of it counts, or another release took its place'),
    files: z.array(ImportedFile),
    ...ImportSummary.shape,
  })
  .meta({ id: 'Import', description: 'A file that was taken in whole' })

export type Import = z.infer<typeof Import>

export const ImportPage = pageOf(Import).meta({ id: 'ImportPage' })

export const ImportRequest = z
  .object({
    id: Id,
    state: z
      .enum(FOLLOWED_STATES)
      .describe('refused: problem says why; failed: step says why. Nothing was imported then'),
    progress: z.number().min(0).max(1),
    step: z.string().describe('What is being done now'),
    import: Id.nullable().describe('What it came to'),
    url: z.string().nullable(),
    problem: Problem.nullable().describe('What a request that waits would have been answered'),
    createdAt: z.iso.datetime(),
    finishedAt: z.iso.datetime().nullable(),
  })
  .meta({ id: 'ImportRequest', description: 'A file that is being taken in, and how far it is' })

export type ImportRequest = z.infer<typeof ImportRequest>

export const ImportHeaders = WriteHeaders.extend({
  prefer: z
    .string()
    .max(200)
    .optional()
    .describe('respond-async (RFC 7240): answer 202 with a place to follow it, for long files'),
})

/** Whether a header Prefer asks for an answer before the work is done. */
export function prefersAsync(prefer: string | undefined): boolean {
  const wishes = (prefer ?? '').split(/[,;]/).map((wish) => wish.trim().toLowerCase())
  return wishes.includes('respond-async')
}

export const ImportQuery = z.strictObject({
  replaces: Id.optional().describe(
    'The import of an earlier release of the same server: it no longer counts once this one does',
  ),
})

export const NotebookColumns = z
  .object({
    items: z.array(
      z.object({
        name: z.string(),
        level: z
          .enum(['label', 'session', 'entry', 'run'])
          .describe(
            'session and entry (a set-up within a session): one value for all its rows, given at least once',
          ),
        type: z.enum(['text', 'number', 'boolean', 'day']),
        unit: z.string().nullable(),
        description: z.string(),
        values: z.array(z.string()).nullable().describe('Words it takes; null: any'),
        kinds: z.array(z.string()).describe('Kinds of run that have it; empty: all'),
        needed: z.boolean(),
        common: z.boolean().describe('Is in the template'),
      }),
    ),
  })
  .meta({
    id: 'NotebookColumns',
    description: 'Columns of a notebook, out of the schema of submissions',
  })

export const TemplateQuery = z.strictObject({
  delimiter: z
    .enum(['comma', 'semicolon'])
    .default('comma')
    .describe('semicolon for spreadsheets that write a decimal comma'),
})
