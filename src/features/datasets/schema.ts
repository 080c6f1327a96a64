import { z } from 'zod'

import { MassClass } from '../../contract/conditions.ts'
import { Id } from '../../contract/ids.ts'
import { pageOf } from '../../contract/pagination.ts'
import { QUASI_IDENTIFIERS } from './privacy/attributes.ts'
import { REQUEST_STATES } from './release/requests-repository.ts'

export const ReleaseId = z
  .string()
  .regex(/^\d{4}-\d{2}-\d{2}\.\d{1,6}$/)
  .describe('Day of the release and its number within the day, such as 2026-11-24.1')

const anonymity = z
  .object({
    k: z.int().describe('Pilots who share whatever combination of quasi-identifiers is shown'),
    pilots: z.int(),
    sessions: z.int(),
    runs: z.int(),
    suppressedRuns: z
      .partialRecord(z.enum(QUASI_IDENTIFIERS), z.int())
      .describe('Runs in which a column was emptied, by column'),
    rangeRuns: z
      .partialRecord(z.enum(QUASI_IDENTIFIERS), z.int())
      .optional()
      .describe('Runs that show a range of classes, by column'),
    kept: z
      .partialRecord(z.enum(QUASI_IDENTIFIERS), z.number().min(0).max(1))
      .optional()
      .describe('Share of what the classes tell that is kept over all runs, by column'),
  })
  .describe('What keeps persons from being recognised, and what it cost')

export const ReleaseEntry = z
  .object({
    id: ReleaseId,
    version: z.int().min(1).describe('Counts the releases'),
    url: z.string().describe('The data package of the release'),
    digest: z.string().describe('SHA-256 of its SHA256SUMS, which names every other file'),
    createdAt: z.iso.datetime(),
    snapshotAt: z.iso.datetime().describe('The moment whose evidence it holds'),
    methodVersion: z.string(),
    modelVersion: z.string(),
    fits: z.array(z.object({ metric: z.string(), fitId: z.string(), runs: z.int() })),
    setups: z.int(),
    anonymity,
    changes: z.array(z.string()).describe('Since the release before'),
    licence: z.string().describe('SPDX identifier'),
    citation: z.string(),
  })
  .meta({ id: 'Release' })

export type ReleaseEntry = z.infer<typeof ReleaseEntry>

export const ReleasePage = pageOf(ReleaseEntry).meta({ id: 'ReleasePage' })

/** A Frictionless data package; its own profile says what is in it. */
export const DataPackage = z
  .looseObject({
    profile: z.string(),
    name: z.string(),
    id: z.string(),
    title: z.string(),
    version: z.string(),
    licenses: z.array(z.looseObject({ name: z.string(), path: z.string() })),
    resources: z.array(z.looseObject({ name: z.string(), path: z.string(), hash: z.string() })),
  })
  .meta({ id: 'DataPackage' })

export const DatasetRequest = z
  .object({
    id: Id,
    state: z
      .enum(REQUEST_STATES)
      .describe('unchanged: the latest release holds the same evidence already'),
    progress: z.number().min(0).max(1),
    step: z.string().describe('What is being done'),
    release: ReleaseId.nullable().describe('What it led to'),
    url: z.string().nullable().describe('The data package of that release'),
    createdAt: z.iso.datetime(),
    finishedAt: z.iso.datetime().nullable(),
  })
  .meta({ id: 'DatasetRequest' })

export type DatasetRequest = z.infer<typeof DatasetRequest>

const month = z
  .string()
  .regex(/^\d{4}-(0[1-9]|1[0-2])$/, 'Must be a month such as 2026-05')
  .optional()

/** What a live export takes: format and filters. */
export const ExportQuery = z.strictObject({
  format: z.enum(['csv', 'ndjson', 'parquet']).default('csv'),
  componentId: Id.optional().describe('Only runs with that powerplant, propeller or frame'),
  setupId: Id.optional().describe('Only runs of that setup'),
  kind: z
    .string()
    .regex(/^[a-zA-Z]{1,40}$/)
    .optional()
    .describe('Only runs of that kind, such as climb'),
  massClass: MassClass.optional().describe('Only runs that show that class of all-up mass'),
  from: month.describe('Only runs that show months from this one on'),
  to: month.describe('Only runs that show months up to this one'),
})

export type ExportQuery = z.infer<typeof ExportQuery>
