import type { Schemas } from '../api/client.ts'
import { onSession, sessionEmail } from '../api/session.ts'
import { read, readKeys, writeAll } from './database.ts'

type Full = Schemas['FullSubmission']

/** The list of own tests as it was last read from the service. */
export interface KeptTests {
  readonly tests: readonly Full[]
  readonly isCut: boolean
  /** When it was read [ms since 1970]. */
  readonly readAt: number
}

/** Keeps the list for a field without a network, under the account it belongs to. */
export async function keepOwnTests(email: string, kept: KeptTests): Promise<void> {
  if (sessionEmail() !== email) return // signed out meanwhile
  await writeAll([{ store: 'mine', key: email, value: kept }])
  await forget()
}

export async function keptOwnTests(email: string): Promise<KeptTests | null> {
  return (await read<KeptTests>('mine', email)) ?? null
}

/** Takes lists of everybody else off this device: now, and whenever somebody signs in or out. */
export function forgetOthers(): void {
  const work = () => void forget().catch(() => {}) // without a store there is nothing to forget
  onSession(work)
  work()
}

async function forget(): Promise<void> {
  const keys = await readKeys('mine')
  const others = keys.filter((key) => key !== sessionEmail())
  await writeAll(others.map((key) => ({ store: 'mine', key })))
}
