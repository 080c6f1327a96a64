import { onRemembered, recall, remember } from '../store/device.ts'
import { rememberSession } from '../store/last-session.ts'
import { shared, useShared } from '../store/shared.ts'
import { jsonOf, NoNetwork, problemOf, Refusal } from './client.ts'

/** Who is signed in on this device. */
export interface Session {
  readonly email: string
  readonly accessToken: string
  /** When the access token ends [ms since 1970]. */
  readonly endsAt: number
  readonly refreshToken: string
}

const STORED = 'session'
/** A token is renewed while it still holds for a while [ms]. */
const EARLY_MS = 30_000

const session = shared<Session | null>(recall<Session>(STORED))

onRemembered(STORED, () => session.set(recall<Session>(STORED)))

/** Another tab may have renewed it: each refresh token works once. */
function latest(): Session | null {
  return recall<Session>(STORED) ?? session.get()
}

export function useSession(): Session | null {
  return useShared(session)
}

export function isSignedIn(): boolean {
  return session.get() !== null
}

/** Tells whenever somebody signs in or out. */
export function onSession(listener: () => void): void {
  session.subscribe(listener)
}

/** The address of who is signed in; null for nobody. */
export function sessionEmail(): string | null {
  return session.get()?.email ?? null
}

/** @throws {Refusal} where e-mail and password do not match */
export async function signIn(email: string, password: string): Promise<void> {
  keep(email, await request({ grantType: 'password', email, password }))
}

/** Forgets who it was and what they flew last: here at once, whatever follows, then at the service. */
export async function signOut(): Promise<void> {
  const left = latest()
  set(null)
  rememberSession(null)
  if (left === null) return
  // Without a network the tokens end by themselves; this device has forgotten them.
  const token = await lastTokenOf(left).catch(() => null)
  if (token === null) return
  const headers = { authorization: `Bearer ${token}` }
  await fetch('/v1/tokens/current', { method: 'DELETE', headers, keepalive: true }).catch(() => {})
}

async function lastTokenOf({ accessToken, endsAt, refreshToken }: Session): Promise<string> {
  if (Date.now() < endsAt) return accessToken
  return (await request({ grantType: 'refresh', refreshToken })).accessToken
}

/** A token that holds; null where nobody is signed in. */
export async function accessToken(): Promise<string | null> {
  return oneAtATime(async () => {
    const current = latest()
    if (current === null) return null
    if (Date.now() < current.endsAt - EARLY_MS) return current.accessToken
    return renew(current)
  })
}

/** A token in place of one that the service no longer takes; null where nobody is signed in any more. */
export async function tokenAfter(stale: string): Promise<string | null> {
  return oneAtATime(async () => {
    const current = latest()
    if (current === null || current.accessToken !== stale) return current?.accessToken ?? null
    return renew(current)
  })
}

async function renew({ email, refreshToken }: Session): Promise<string | null> {
  // Somebody may sign out or in meanwhile: that stays.
  const isStill = () => latest()?.refreshToken === refreshToken
  try {
    const tokens = await request({ grantType: 'refresh', refreshToken })
    return isStill() ? keep(email, tokens).accessToken : null
  } catch (error) {
    if (!(error instanceof Refusal) || error.problem.status !== 401) throw error
    if (isStill()) set(null)
    return null
  }
}

interface Tokens {
  readonly accessToken: string
  readonly refreshToken: string
  readonly expiresInS: number
}

function keep(email: string, { accessToken, refreshToken, expiresInS }: Tokens): Session {
  const next = { email, accessToken, refreshToken, endsAt: Date.now() + expiresInS * 1000 }
  set(next)
  return next
}

function set(next: Session | null): void {
  session.set(next)
  remember(STORED, next)
}

async function request(body: object): Promise<Tokens> {
  const response = await fetch('/v1/tokens', {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify(body),
  }).catch(() => {
    throw new NoNetwork('The service cannot be reached.')
  })
  if (!response.ok) throw new Refusal(await problemOf(response))
  return jsonOf<Tokens>(response)
}

/** Across tabs where the browser can, within this one otherwise. */
function oneAtATime<T>(work: () => Promise<T>): Promise<T> {
  return navigator.locks === undefined
    ? work()
    : (navigator.locks.request('fairclimb.session', work) as Promise<T>)
}
