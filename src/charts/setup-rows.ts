import type { ForestRow } from './forest.ts'

/** What a chart needs of a setup in an answer. */
export interface ShownSetup {
  readonly setupId: string
  readonly name: string
  readonly value: number | null
  readonly interval95: readonly number[] | null
  readonly rank: { readonly median: number; readonly interval95: readonly number[] } | null
  readonly safety: { readonly state: 'none' | 'advisory' | 'doNotFly' }
  readonly evidence: { readonly interestedSessions: number }
  readonly refused?: { readonly reason: string } | undefined
}

/** What a chart needs of a pair in an answer. */
export interface ShownPair {
  readonly a: string
  readonly b: string
  readonly verdict: 'aBetter' | 'bBetter' | 'practicallyEqual' | 'notResolved' | 'refused'
  readonly differencePercent?: number | undefined
  readonly interval95Percent?: readonly number[] | undefined
  readonly differenceDb?: number | undefined
  readonly interval95Db?: readonly number[] | undefined
  readonly reason?: string | undefined
}

/** The setups as lines of a forest, each value in the reader's unit. */
export function valueRows(
  setups: readonly ShownSetup[],
  toReader: (value: number) => number = (value) => value,
): ForestRow[] {
  return setups.map((setup) => {
    const [low, high] = setup.interval95 ?? []
    return {
      name: setup.name,
      estimate: setup.value === null ? null : toReader(setup.value),
      low: low === undefined ? null : toReader(low),
      high: high === undefined ? null : toReader(high),
      ...remarks(setup),
    }
  })
}

/** Their ranks as lines of a forest. */
export function rankRows(setups: readonly ShownSetup[]): ForestRow[] {
  return setups.map((setup) => ({
    name: setup.name,
    estimate: setup.rank?.median ?? null,
    low: setup.rank?.interval95[0] ?? null,
    high: setup.rank?.interval95[1] ?? null,
    ...remarks(setup),
  }))
}

/** Differences of every other setup against one of them, in per cent or decibels. */
export function differenceRows(
  setups: readonly ShownSetup[],
  pairs: readonly ShownPair[],
  againstId: string,
): ForestRow[] {
  return setups
    .filter(({ setupId }) => setupId !== againstId)
    .flatMap((setup) => {
      const pair = pairs.find(
        ({ a, b }) =>
          (a === setup.setupId && b === againstId) || (b === setup.setupId && a === againstId),
      )
      return pair === undefined ? [] : [differenceRow(setup, pair)]
    })
}

function differenceRow(setup: ShownSetup, pair: ShownPair): ForestRow {
  const given = differenceOf(pair)
  const isTurned = pair.b === setup.setupId
  const turned = given !== null && isTurned ? turn(given, pair) : given
  const isOpen = pair.verdict === 'notResolved' || pair.verdict === 'practicallyEqual'
  const own = remarks(setup)
  const note = pair.verdict === 'refused' ? pair.reason : own.note
  return {
    name: setup.name,
    estimate: turned?.estimate ?? null,
    low: turned?.low ?? null,
    high: turned?.high ?? null,
    ...(note === undefined ? {} : { note }),
    tone: own.tone === 'unsafe' ? 'unsafe' : isOpen ? 'quiet' : 'plain',
  }
}

interface Difference {
  readonly estimate: number
  readonly low: number
  readonly high: number
}

function differenceOf(pair: ShownPair): Difference | null {
  const estimate = pair.differencePercent ?? pair.differenceDb
  const [low, high] = pair.interval95Percent ?? pair.interval95Db ?? []
  if (estimate === undefined || low === undefined || high === undefined) return null
  return { estimate, low, high }
}

/** The same difference seen from the other side: b against a. */
function turn({ estimate, low, high }: Difference, pair: ShownPair): Difference {
  const other =
    pair.differenceDb === undefined
      ? (percent: number) => 100 * (1 / (1 + percent / 100) - 1)
      : (decibels: number) => -decibels
  return { estimate: other(estimate), low: other(high), high: other(low) }
}

function remarks(setup: ShownSetup): Pick<ForestRow, 'note' | 'tone'> {
  if (setup.safety.state === 'doNotFly') return { note: 'Do not fly', tone: 'unsafe' }
  if (setup.refused !== undefined) return { note: setup.refused.reason, tone: 'quiet' }
  if (setup.safety.state === 'advisory') return { note: 'Safety advisory: read it first' }
  return {}
}
