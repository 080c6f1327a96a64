import type { ForestRow } from '../../../charts/forest.ts'
import type { Schemas } from '../../api/client.ts'
import type { Metric } from '../../metrics.ts'
import type { RunPlace } from './review-words.ts'

/** Standard uncertainties on each side that hold 95 % of a normal distribution. */
const COVERAGE = 1.96

type Normalized = Pick<Schemas['Normalized'], 'metric' | 'value' | 'standardUncertainty'>

export interface OddSession {
  readonly entries: readonly {
    readonly setupId: string
    readonly runs: readonly { readonly normalized: Normalized }[]
  }[]
}

/** What all tests say of a setup at the reference state. */
export interface KnownSetup {
  readonly setupId: string
  readonly name: string
  readonly value: number | null
  readonly interval95: readonly number[] | null
}

interface Question {
  readonly metric: Metric
  readonly known: readonly KnownSetup[]
  /** Those that stand out. */
  readonly odd: readonly RunPlace[]
  readonly toReader: (value: number) => number
}

/** Each setup of a session by all tests, and below it the runs of the session, the odd ones marked. */
export function oddRows({ entries }: OddSession, question: Question): ForestRow[] {
  return entries.flatMap((entry, at) => {
    const runs = entry.runs.flatMap(({ normalized }, index) =>
      normalized.metric === question.metric
        ? [runRow(normalized, { entry: at, run: index }, question)]
        : [],
    )
    return runs.length === 0 ? [] : [knownRow(entry.setupId, question), ...runs]
  })
}

function knownRow(setupId: string, { known, toReader }: Question): ForestRow {
  const setup = known.find((one) => one.setupId === setupId)
  const [low, high] = setup?.interval95 ?? []
  return {
    name: setup?.name ?? 'The setup',
    note: 'by all tests',
    estimate: setup?.value == null ? null : toReader(setup.value),
    low: low === undefined ? null : toReader(low),
    high: high === undefined ? null : toReader(high),
  }
}

function runRow(
  { value, standardUncertainty }: Normalized,
  place: RunPlace,
  { odd, toReader }: Question,
): ForestRow {
  const half = COVERAGE * standardUncertainty
  const isOdd = odd.some(({ entry, run }) => entry === place.entry && run === place.run)
  return {
    name: `Run ${place.run + 1} of this session`,
    estimate: toReader(value),
    low: toReader(value - half),
    high: toReader(value + half),
    ...(isOdd ? { note: 'stands out', tone: 'odd' as const } : { tone: 'quiet' as const }),
  }
}
