type Readings = Readonly<Record<string, unknown>>

/** What is compared of a setup within a session. */
export interface FlownEntry {
  readonly allUpMassKg: number
  readonly runs: readonly Readings[]
}

/** The air that a session was flown in. */
export type Air = Readonly<Record<string, unknown>>

/** Two kinds of field that say nothing about what was read off. */
const UNREAD = ['kind', 'note', 'uncertainty']

/** How far two entries of one day and setup are the same. */
export interface Alikeness {
  /** Pairs of runs with the same readings. */
  readonly runs: number
  /** The masses and the air are the same too: it can hardly be another flight. */
  readonly isSame: boolean
}

/**
 * Compares what was read off in two entries of one day and setup; null where they are two flights.
 *
 * Every run of the entry with fewer runs must have one of the other with its readings; what only one
 * of the two gives, as a notebook may leave out what is optional, makes no difference.
 */
export function compareEntries(
  a: FlownEntry & { readonly air: Air },
  b: FlownEntry & { readonly air: Air },
): Alikeness | null {
  const [fewer, more] = a.runs.length <= b.runs.length ? [a.runs, b.runs] : [b.runs, a.runs]
  const left = [...more]
  for (const run of fewer) {
    const place = left.findIndex((other) => areSameReadings(run, other))
    if (place === -1) return null
    left.splice(place, 1)
  }
  const isSame = a.allUpMassKg === b.allUpMassKg && agree(a.air, b.air)
  return { runs: fewer.length, isSame }
}

function areSameReadings(a: Readings, b: Readings): boolean {
  return a.kind === b.kind && agree(a, b)
}

/** Whether what both give is the same. */
function agree(a: Readings, b: Readings): boolean {
  return Object.entries(a).every(
    ([field, value]) =>
      UNREAD.includes(field) ||
      b[field] === undefined ||
      JSON.stringify(value) === JSON.stringify(b[field]),
  )
}
