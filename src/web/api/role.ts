import type { Schemas } from './client.ts'
import type { Session } from './session.ts'

type Role = Schemas['Account']['role']

/**
 * What the access token says its owner is, to show or leave out a link: the service asks its database
 * at every call, so nothing hangs on it.
 */
export function roleOf(session: Pick<Session, 'accessToken'> | null): Role | null {
  const [, claims] = session?.accessToken.split('.') ?? []
  if (claims === undefined) return null
  try {
    const text = atob(claims.replaceAll('-', '+').replaceAll('_', '/'))
    return (JSON.parse(text) as { readonly role?: Role }).role ?? null
  } catch {
    return null
  }
}

export function isModerator(session: Pick<Session, 'accessToken'> | null): boolean {
  const role = roleOf(session)
  return role === 'moderator' || role === 'admin'
}
