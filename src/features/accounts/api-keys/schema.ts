import { z } from 'zod'

import { pageOf } from '../../../contract/pagination.ts'
import { Label } from '../schema.ts'

export const NewApiKey = z
  .strictObject({ name: Label.describe('What the key is for, to tell keys apart') })
  .meta({ id: 'NewApiKey' })

export const ApiKey = z
  .object({
    id: z.uuid(),
    name: z.string(),
    prefix: z.string().describe('First characters of the key'),
    createdAt: z.iso.datetime(),
    lastUsedAt: z.iso.datetime().nullable().describe('To the minute; null before the first use'),
  })
  .meta({ id: 'ApiKey' })

export type ApiKey = z.infer<typeof ApiKey>

export const CreatedApiKey = ApiKey.extend({
  key: z.string().describe('The key itself, for "Authorization: Bearer"; shown only now'),
}).meta({ id: 'CreatedApiKey' })

export type CreatedApiKey = z.infer<typeof CreatedApiKey>

export const ApiKeyPage = pageOf(ApiKey).meta({ id: 'ApiKeyPage' })

export type ApiKeyPage = z.infer<typeof ApiKeyPage>
