import type { Schemas } from '../../api/client.ts'
import { type OtherReading, otherReadings } from '../../readings.ts'
import type { Shown } from './compare-page.tsx'

type Pair = Schemas['ComparedPair']

export const VERDICT_WORDS: Readonly<Record<Pair['verdict'], string>> = {
  aBetter: 'the first is better',
  bBetter: 'the second is better',
  practicallyEqual: 'practically equal',
  notResolved: 'not told apart',
  refused: 'too little to compare them',
}

type Lead = Pick<NonNullable<Schemas['Ranking']['robust']>, 'first' | 'otherwise'>

interface Stand {
  readonly own: string
  readonly others: readonly OtherReading[]
}

/** How the one answer of the page fares in other readings: the verdict on a pair, or who leads. */
export function standOf({ pairs, ranked, head }: Shown): Stand | null {
  const [pair] = pairs ?? []
  if (pairs?.length === 1 && pair !== undefined) {
    return { own: VERDICT_WORDS[pair.verdict], others: verdictsBeside(pair) }
  }
  const [first] = ranked
  if (pairs !== null || first === undefined) return null
  const nameOf = (id: string) => ranked.find(({ setupId }) => setupId === id)?.name ?? 'another one'
  const others = otherReadings<Lead>(head, ({ first: id, otherwise }) => {
    const leads = id === null ? 'nobody leads' : `${nameOf(id)} leads`
    if (otherwise.length === 0) return leads
    return `${leads}; the verdict against it is another for ${otherwise.map(nameOf).join(', ')}`
  })
  return { own: `${first.name} leads`, others }
}

export function verdictsBeside(pair: Pair): OtherReading[] {
  return otherReadings<Pick<Pair, 'verdict'>>(pair, ({ verdict }) => VERDICT_WORDS[verdict])
}
