import type { Layout } from '../layout.ts'

/** Mean product of the deviations of two runs [unit of y squared]; null where no two runs are so alike. */
export interface Products {
  /** Of runs that share the pilot, but not the session. */
  readonly pilot: number | null
  /** Of runs that share the session, but not the cell. */
  readonly session: number | null
  /** Of runs that share the cell. */
  readonly cell: number | null
}

/** Runs of one group, taken together. */
interface Sum {
  runs: number
  deviations: number
}

/** Σ_pairs d_i d_k over both orders, and their number. */
class Pairs {
  #products = 0
  #count = 0

  /** Pairs within a group: all, less those within its parts. */
  addGroup({ runs, deviations }: Sum): void {
    this.#products += deviations * deviations
    this.#count += runs * runs
  }

  takePart({ runs, deviations }: Sum): void {
    this.#products -= deviations * deviations
    this.#count -= runs * runs
  }

  mean(): number | null {
    return this.#count > 0 ? this.#products / this.#count : null
  }
}

/**
 * Products of the deviations of two runs by what they share, which are about the variance of that.
 *
 *     E d_i d_k = τp² (same pilot),  τp² + τs² (same session),  τp² + τs² + τc² (same cell)
 *
 * Deviations are from setup means, so this is biased by the order of setups over runs: good for a start only.
 *
 * @param layout the runs
 * @returns the means over all pairs
 * @source common practice (method of moments)
 */
export function productsOfPairs(layout: Layout): Products {
  const { pilotCount, pilotStart, sessionStart, cellStart, deviation } = layout
  const pairs = { pilot: new Pairs(), session: new Pairs(), cell: new Pairs() }
  const run: Sum = { runs: 1, deviations: 0 }
  for (let p = 0; p < pilotCount; p++) {
    const pilot: Sum = { runs: 0, deviations: 0 }
    for (let s = pilotStart[p]!; s < pilotStart[p + 1]!; s++) {
      const session: Sum = { runs: 0, deviations: 0 }
      for (let c = sessionStart[s]!; c < sessionStart[s + 1]!; c++) {
        const cell: Sum = { runs: 0, deviations: 0 }
        for (let i = cellStart[c]!; i < cellStart[c + 1]!; i++) {
          run.deviations = deviation[i]!
          join(run, cell, pairs.cell)
        }
        pairs.cell.addGroup(cell)
        join(cell, session, pairs.session)
      }
      pairs.session.addGroup(session)
      join(session, pilot, pairs.pilot)
    }
    pairs.pilot.addGroup(pilot)
  }
  return { pilot: pairs.pilot.mean(), session: pairs.session.mean(), cell: pairs.cell.mean() }
}

function join(part: Sum, group: Sum, pairs: Pairs): void {
  pairs.takePart(part)
  group.runs += part.runs
  group.deviations += part.deviations
}
