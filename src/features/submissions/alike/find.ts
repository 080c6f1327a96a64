import type { PoolClient } from 'pg'

import type { NewSubmission } from '../schema.ts'
import { type Air, type Alikeness, compareEntries, type FlownEntry } from './compare.ts'
import { findFlown } from './repository.ts'

/** Where readings stand already: in a submission, or in a body before this one. */
export type Earlier =
  | { readonly submissionId: string; readonly accountId: string; readonly isImported: boolean }
  | { readonly bodyIndex: number }

/** An entry of a body whose readings stand somewhere already. */
export interface AlikeEntry extends Alikeness {
  readonly entryIndex: number
  readonly earlier: Earlier
}

interface Known {
  readonly flown: FlownEntry & { readonly air: Air }
  readonly earlier: Earlier
}

/**
 * For each of these bodies, its entries whose readings a submission that counts has already, or a body
 * before it, of the same day and setup.
 */
export async function findAlike(
  client: PoolClient,
  bodies: readonly NewSubmission[],
): Promise<AlikeEntry[][]> {
  const known = await knownFor(client, bodies)
  return bodies.map(({ flownOn, conditions: air, entries }, bodyIndex) =>
    entries.flatMap((entry, entryIndex) => {
      const flown = { ...entry, air }
      const before = knownOn(known, flownOn, entry.setupId)
      const alike = before.flatMap(({ flown: other, earlier }) => {
        const found = compareEntries(flown, other)
        return found === null ? [] : [{ ...found, entryIndex, earlier }]
      })
      before.push({ flown, earlier: { bodyIndex } })
      return alike
    }),
  )
}

async function knownFor(
  client: PoolClient,
  bodies: readonly NewSubmission[],
): Promise<Map<string, Known[]>> {
  const asked = bodies.flatMap(({ flownOn, entries }) =>
    entries.map(({ setupId }) => ({ day: flownOn, setupId })),
  )
  const known = new Map<string, Known[]>()
  for (const { day, setupId, air, entry, ...earlier } of await findFlown(client, asked)) {
    knownOn(known, day, setupId).push({ flown: { ...entry, air }, earlier })
  }
  return known
}

/** What is known of a day and setup, to be added to. */
function knownOn(known: Map<string, Known[]>, day: string, setupId: string): Known[] {
  const key = `${day} ${setupId.toLowerCase()}`
  const found = known.get(key) ?? []
  known.set(key, found)
  return found
}
