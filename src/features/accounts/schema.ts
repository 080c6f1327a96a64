import { z } from 'zod'

import { Role } from '../../contract/caller.ts'
import { hasPasswordLength, PASSWORD_LENGTH } from './password.ts'

/** Text shown to people: no control characters and no halves of surrogate pairs, which PostgreSQL cannot store. */
export const Label = z
  .string()
  .trim()
  .min(1)
  .max(80)
  .regex(/^[^\p{Cc}\p{Cs}]*$/u, 'must not contain control characters')

export const Email = z
  .string()
  .trim()
  .toLowerCase()
  .max(254)
  .check(z.email())
  .describe('E-mail address; upper and lower case are the same')

export const NewAccount = z
  .strictObject({
    email: Email,
    password: z
      .string()
      .refine(hasPasswordLength, {
        error: `must have ${PASSWORD_LENGTH.min} to ${PASSWORD_LENGTH.max} characters`,
      })
      .describe('Any characters; neither the e-mail address nor the display name')
      .meta({ minLength: PASSWORD_LENGTH.min, maxLength: PASSWORD_LENGTH.max }),
    displayName: Label.describe('Name shown beside what this account writes'),
  })
  .meta({ id: 'NewAccount' })

export type NewAccount = z.infer<typeof NewAccount>

export const Account = z
  .object({
    id: z.uuid(),
    email: z.string(),
    displayName: z.string(),
    role: Role,
    createdAt: z.iso.datetime(),
  })
  .meta({ id: 'Account' })

export type Account = z.infer<typeof Account>

export const RoleChange = z.strictObject({ role: Role }).meta({ id: 'RoleChange' })

/** Everything stored about one person, except hashes of secrets. */
export const AccountExport = z
  .object({
    exportedAt: z.iso.datetime(),
    account: Account,
    apiKeys: z.array(
      z.object({
        id: z.uuid(),
        name: z.string(),
        prefix: z.string(),
        createdAt: z.iso.datetime(),
        lastUsedAt: z.iso.datetime().nullable(),
        revokedAt: z.iso.datetime().nullable(),
      }),
    ),
    sessions: z.array(
      z.object({
        id: z.uuid(),
        startedAt: z.iso.datetime(),
        lastRefreshedAt: z.iso.datetime(),
        revoked: z.boolean(),
      }),
    ),
    submissions: z.array(
      z.object({
        id: z.uuid(),
        createdAt: z.iso.datetime(),
        withdrawnAt: z.iso.datetime().nullable(),
        currentRevision: z.int(),
        revisions: z.array(
          z.object({
            number: z.int(),
            createdAt: z.iso.datetime(),
            body: z.unknown().describe('As it was submitted'),
          }),
        ),
      }),
    ),
    imports: z
      .array(
        z.object({
          id: z.uuid(),
          kind: z.string(),
          createdAt: z.iso.datetime(),
          withdrawnAt: z.iso.datetime().nullable(),
          files: z
            .unknown()
            .describe('Names, SHA-256 and sizes; what they held stands in submissions'),
        }),
      )
      .describe('Files that the account brought in'),
    reports: z
      .array(
        z.object({
          id: z.uuid(),
          origin: z.string().describe('person, or measurement: found in a submission'),
          kind: z.string(),
          text: z.string(),
          setupId: z.uuid().nullable(),
          componentId: z.uuid().nullable(),
          submissionId: z.uuid().nullable(),
          createdAt: z.iso.datetime(),
        }),
      )
      .describe('What the account reported'),
    actions: z
      .array(
        z.object({
          at: z.iso.datetime(),
          action: z.string(),
          subjectKind: z.string(),
          subjectId: z.uuid(),
          detail: z.record(z.string(), z.unknown()),
        }),
      )
      .describe('What the audit trail says that the account did'),
    componentsAdded: z.array(z.uuid()).describe('Catalogue components entered by this account'),
    setupsAdded: z.array(z.uuid()).describe('Setups entered by this account'),
  })
  .meta({ id: 'AccountExport' })

export type AccountExport = z.infer<typeof AccountExport>
