import { randomUUID } from 'node:crypto'
import { errors, jwtVerify, SignJWT } from 'jose'

import type { Role } from '../../../contract/caller.ts'
import { ALGORITHM, type Keyring } from './signing-keys.ts'

/** Life of an access token [s]. */
export const ACCESS_TOKEN_LIFE_S = 15 * 60

/** Who signs, and for whom: one service, so both are constants of it. */
export const ISSUER = 'fairclimb'
export const AUDIENCE = 'fairclimb-api'

/** Type in the header: a token made for something else cannot pass for an access token (RFC 9068, 2.1). */
export const TOKEN_TYPE = 'at+jwt'

/** What an access token says. */
export interface AccessClaims {
  readonly accountId: string
  readonly sessionId: string
}

/** Signs an access token. The role is in it for clients; the service itself asks the database. */
export async function signAccessToken(
  keyring: Keyring,
  claims: AccessClaims & { readonly role: Role },
): Promise<string> {
  const { kid, privateKey } = await keyring.signingKey()
  const nowS = Math.floor(Date.now() / 1000)
  return new SignJWT({ role: claims.role, sid: claims.sessionId })
    .setProtectedHeader({ alg: ALGORITHM, typ: TOKEN_TYPE, kid })
    .setIssuer(ISSUER)
    .setAudience(AUDIENCE)
    .setSubject(claims.accountId)
    .setIssuedAt(nowS)
    .setExpirationTime(nowS + ACCESS_TOKEN_LIFE_S)
    .setJti(randomUUID())
    .sign(privateKey)
}

/** Why a token was refused. */
export type TokenFault = 'expired' | 'invalid'

/** What a genuine, current access token says, or why it is refused. */
export async function readAccessToken(
  keyring: Keyring,
  token: string,
): Promise<AccessClaims | TokenFault> {
  try {
    const { payload } = await jwtVerify(token, ({ kid }) => keyOf(keyring, kid), {
      algorithms: [ALGORITHM],
      issuer: ISSUER,
      audience: AUDIENCE,
      typ: TOKEN_TYPE,
      requiredClaims: ['sub', 'sid', 'iat', 'exp', 'jti'],
    })
    return { accountId: String(payload.sub), sessionId: String(payload.sid) }
  } catch (error) {
    if (error instanceof errors.JWTExpired) return 'expired'
    if (error instanceof errors.JOSEError) return 'invalid'
    throw error // the database, for instance
  }
}

async function keyOf(keyring: Keyring, kid: string | undefined) {
  const key = kid === undefined ? null : await keyring.verificationKey(kid)
  if (key === null) throw new errors.JWKSNoMatchingKey()
  return key
}
