import { z } from 'zod'

import { Email } from '../schema.ts'

const MAX_SECRET_LENGTH = 1_000

export const TokenRequest = z
  .discriminatedUnion('grantType', [
    z.strictObject({
      grantType: z.literal('password'),
      email: Email,
      password: z.string().min(1).max(MAX_SECRET_LENGTH),
    }),
    z.strictObject({
      grantType: z.literal('refresh'),
      refreshToken: z
        .string()
        .min(1)
        .max(MAX_SECRET_LENGTH)
        .describe('From the last answer of this call; each works once'),
    }),
  ])
  .meta({ id: 'TokenRequest' })

export type TokenRequest = z.infer<typeof TokenRequest>

export const Tokens = z
  .object({
    accessToken: z.string().describe('JWT, signed with EdDSA; for "Authorization: Bearer"'),
    tokenType: z.literal('Bearer'),
    expiresInS: z.int().describe('Life of the access token [s]'),
    refreshToken: z.string().describe('Gives the next pair of tokens, once'),
  })
  .meta({ id: 'Tokens' })

export type Tokens = z.infer<typeof Tokens>

/** Public keys of the access tokens (RFC 7517). */
export const KeySet = z
  .object({
    keys: z.array(
      z.object({
        kty: z.literal('OKP'),
        crv: z.literal('Ed25519'),
        x: z.string(),
        kid: z.string(),
        alg: z.literal('EdDSA'),
        use: z.literal('sig'),
      }),
    ),
  })
  .meta({ id: 'KeySet' })

export type KeySet = z.infer<typeof KeySet>
