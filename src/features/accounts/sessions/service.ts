import { randomUUID } from 'node:crypto'

import type { Caller, Role } from '../../../contract/caller.ts'
import { ApiProblem } from '../../../contract/problems.ts'
import type { Database } from '../../../db/client.ts'
import { inTransaction } from '../../../db/transaction.ts'
import { hashPassword, isPassword } from '../password.ts'
import { findCredentials } from '../repository.ts'
import { newSecret, secretHash } from '../secret.ts'
import { ACCESS_TOKEN_LIFE_S, signAccessToken } from './access-token.ts'
import {
  findRefreshToken,
  insertRefreshToken,
  lockAccount,
  markUsed,
  type RefreshToken,
  revokeFamily,
} from './repository.ts'
import type { TokenRequest, Tokens } from './schema.ts'
import { createKeyring, type Keyring } from './signing-keys.ts'

/** What sessions need beside the request. */
export interface SessionContext {
  readonly db: Database
  readonly keyring: Keyring
  /** Hash that nobody has the password of: an unknown e-mail costs the same time as a known one. */
  readonly decoyHash: string
}

interface Session {
  readonly accountId: string
  readonly sessionId: string
  readonly role: Role
}

export async function createSessionContext(db: Database): Promise<SessionContext> {
  return { db, keyring: createKeyring(db), decoyHash: await hashPassword(newSecret()) }
}

/** Gives tokens for a password, which starts a session, or for a refresh token, which continues one. */
export async function grantTokens(context: SessionContext, request: TokenRequest): Promise<Tokens> {
  const refreshToken = newSecret()
  const session =
    request.grantType === 'password'
      ? await startSession(context, request, refreshToken)
      : await continueSession(context.db, request.refreshToken, refreshToken)
  return {
    accessToken: await signAccessToken(context.keyring, session),
    tokenType: 'Bearer',
    expiresInS: ACCESS_TOKEN_LIFE_S,
    refreshToken,
  }
}

/** Ends the session of the caller; its access and refresh tokens are refused from now on. */
export async function signOut(db: Database, caller: Caller): Promise<void> {
  const { accountId, sessionId } = caller
  if (sessionId === undefined) {
    throw new ApiProblem('not-permitted', {
      detail: 'An API key has no session to end; delete the key under /v1/api-keys.',
    })
  }
  await inTransaction(db, async (client) => {
    await lockAccount(client, accountId)
    await revokeFamily(client, sessionId)
  })
}

async function startSession(
  { db, decoyHash }: SessionContext,
  { email, password }: { readonly email: string; readonly password: string },
  refreshToken: string,
): Promise<Session> {
  const account = await findCredentials(db, email)
  const matches = await isPassword(password, account?.passwordHash ?? decoyHash)
  if (account === null || !matches) throw new ApiProblem('wrong-credentials')
  const session = await inTransaction(db, async (client) => {
    const role = await lockAccount(client, account.id)
    if (role === null) return null
    const familyId = randomUUID()
    const tokenHash = secretHash(refreshToken)
    await insertRefreshToken(client, { familyId, accountId: account.id, tokenHash })
    return { accountId: account.id, sessionId: familyId, role }
  })
  if (session === null) throw new ApiProblem('wrong-credentials') // closed a moment ago
  return session
}

/**
 * Replaces a refresh token by its successor.
 *
 * A token that was spent before it was shown has been copied, by whom is unknown, so its whole
 * family ends (RFC 9700, 4.14.2). One that was still good when it arrived but was used by a request
 * that overtook this one is only refused: two tabs refreshing together do not end the session.
 */
async function continueSession(
  db: Database,
  refreshToken: string,
  successor: string,
): Promise<Session> {
  const tokenHash = secretHash(refreshToken)
  const onArrival = await findRefreshToken(db.pool, tokenHash)
  if (onArrival === null) throw refreshRefused()
  // Returns null where refused: an exception would roll the revocation back.
  const session = await inTransaction(db, async (client): Promise<Session | null> => {
    const role = await lockAccount(client, onArrival.accountId)
    const token = await findRefreshToken(client, tokenHash)
    if (role === null || token === null) return null
    if (onArrival.spent) await revokeFamily(client, token.familyId)
    if (token.spent || token.expired) return null
    await markUsed(client, token.id)
    await insertRefreshToken(client, { ...token, tokenHash: secretHash(successor) })
    return sessionOf(token, role)
  })
  if (session === null) throw refreshRefused()
  return session
}

function sessionOf({ accountId, familyId }: RefreshToken, role: Role): Session {
  return { accountId, sessionId: familyId, role }
}

function refreshRefused(): ApiProblem {
  return new ApiProblem('not-authenticated', {
    detail: 'The refresh token is not valid, or not any more; sign in again.',
  })
}
