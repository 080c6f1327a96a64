import { randomUUID } from 'node:crypto'

import type { Role } from '../../src/contract/caller.ts'
import type { TestApp } from './app.ts'

/** A person with an account who is signed in. */
export interface SignedUp {
  readonly accountId: string
  readonly email: string
  readonly password: string
  /** Access token, good for 15 minutes. */
  readonly token: string
  readonly refreshToken: string
  /** The header that says who is asking. */
  readonly authorization: { readonly authorization: string }
}

/** Opens an account through the API and signs in. Roles other than pilot are written to the database. */
export async function signUp(
  { request, db }: Pick<TestApp, 'request' | 'db'>,
  role: Role = 'pilot',
): Promise<SignedUp> {
  const email = `${randomUUID()}@example.org`
  const password = `Larkfield ${randomUUID()}`
  const account = await request
    .post('/v1/accounts')
    .send({ email, password, displayName: 'A. Person' })
    .expect(201)
  const accountId: string = account.body.id
  if (role !== 'pilot') await db.prisma.account.update({ where: { id: accountId }, data: { role } })
  const tokens = await request
    .post('/v1/tokens')
    .send({ grantType: 'password', email, password })
    .expect(200)
  const { accessToken: token, refreshToken } = tokens.body
  const authorization = { authorization: `Bearer ${token}` }
  return { accountId, email, password, token, refreshToken, authorization }
}
