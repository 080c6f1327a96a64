import type { Caller } from '../../contract/caller.ts'
import { ApiProblem } from '../../contract/problems.ts'
import type { Database } from '../../db/client.ts'
import { findCallerByApiKey } from './api-keys/repository.ts'
import { API_KEY_MARK } from './api-keys/service.ts'
import { secretHash } from './secret.ts'
import { readAccessToken } from './sessions/access-token.ts'
import { findSessionRole } from './sessions/repository.ts'
import { createKeyring } from './sessions/signing-keys.ts'

/**
 * Who stands behind an `Authorization: Bearer`: an access token or an API key.
 *
 * A signature only proves that a token was given out; whether its session still runs, and which role
 * its owner has now, is asked of the database each time (one query by primary key). Nothing is
 * remembered between requests, so signing out, closing an account and taking a role away hold at
 * once in every process.
 *
 * @returns a function that gives the caller, or throws the problem "not-authenticated"
 */
export function verifyBearer(db: Database): (bearer: string) => Promise<Caller> {
  const keyring = createKeyring(db)

  return async (bearer) => {
    if (bearer.startsWith(API_KEY_MARK)) {
      const caller = await findCallerByApiKey(db, secretHash(bearer))
      if (caller === null) throw refused('The API key is not valid, or not any more.')
      return caller
    }
    const claims = await readAccessToken(keyring, bearer)
    if (claims === 'expired') throw refused('The access token has expired.')
    if (claims === 'invalid') throw refused('The access token is not valid.')
    const role = await findSessionRole(db, claims)
    if (role === null) throw refused('The session of the access token has ended.')
    return { ...claims, role }
  }
}

function refused(detail: string): ApiProblem {
  return new ApiProblem('not-authenticated', { detail })
}
