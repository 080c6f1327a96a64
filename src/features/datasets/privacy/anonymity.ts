import { keptShare } from '../../../core/anonymity/kept-share.ts'
import type { CodedRecords, SharedClass } from '../../../core/anonymity/types.ts'
import {
  type Attribute,
  QUASI_IDENTIFIERS,
  type QuasiIdentifier,
  type Shown,
} from './attributes.ts'

/** What the pass over the evidence came to. */
export interface Anonymity {
  readonly k: number
  readonly pilots: number
  readonly sessions: number
  readonly runs: number
  /** Runs in which the column is empty, by column. */
  readonly suppressedRuns: Readonly<Record<QuasiIdentifier, number>>
  /** Runs that show a range instead of a class, by column. Releases made before ranges have none. */
  readonly rangeRuns?: Readonly<Partial<Record<QuasiIdentifier, number>>>
  /** Share of what the classes tell that is kept over all runs: 1 for a class, 0 for nothing, by column. */
  readonly kept?: Readonly<Partial<Record<QuasiIdentifier, number>>>
}

const zeros = <K extends string>(names: readonly K[]) =>
  Object.fromEntries(names.map((name) => [name, 0])) as Record<K, number>

/** Counts what the classes show, class by class. */
export class Tally {
  readonly #records: CodedRecords
  readonly #attributes: readonly Attribute[]
  readonly #runs: number
  readonly #shown = zeros(QUASI_IDENTIFIERS)
  readonly #ranges: Partial<Record<QuasiIdentifier, number>>
  readonly #kept: Partial<Record<QuasiIdentifier, number>>

  constructor(records: CodedRecords, attributes: readonly Attribute[]) {
    this.#records = records
    this.#attributes = attributes
    this.#runs = records.weights.reduce((sum, runs) => sum + runs, 0)
    this.#ranges = zeros(attributes.map(({ column }) => column))
    this.#kept = zeros(attributes.map(({ column }) => column))
  }

  add({ records, low, high }: SharedClass, values: Shown): void {
    let runs = 0
    for (const record of records) runs += this.#records.weights[record]!
    for (const column of QUASI_IDENTIFIERS) {
      if ((values[column] ?? null) !== null) this.#shown[column] += runs
    }
    for (const [c, { column, levels, show }] of this.#attributes.entries()) {
      if (attributeIsEmpty(show(low[c]!, high[c]!))) continue
      const share = keptShare(low[c]!, high[c]!, levels)
      this.#kept[column]! += runs * share
      if (low[c] !== high[c]) this.#ranges[column]! += runs
    }
  }

  result(
    k: number,
    { pilots, sessions }: { readonly pilots: number; readonly sessions: number },
  ): Anonymity {
    const runs = this.#runs
    const inEach = <K extends string>(
      sums: Readonly<Record<K, number>>,
      of: (sum: number) => number,
    ) =>
      Object.fromEntries(
        Object.entries<number>(sums).map(([name, sum]) => [name, of(sum)]),
      ) as Record<K, number>
    return {
      ...{ k, pilots, sessions, runs },
      suppressedRuns: inEach(this.#shown, (shown) => runs - shown),
      rangeRuns: this.#ranges,
      kept: inEach(this.#kept as Record<QuasiIdentifier, number>, (sum) =>
        runs === 0 ? 0 : Number((sum / runs).toFixed(3)),
      ),
    }
  }
}

/** Some ranges have no name of their own, and show nothing. */
function attributeIsEmpty(shown: Shown): boolean {
  return Object.values(shown).every((cell) => cell === null)
}
