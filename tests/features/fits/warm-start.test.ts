import { describe, expect, it } from 'vitest'

import { PLAIN } from '../../../src/core/comparison/fit-about.ts'
import { restoreFit } from '../../../src/core/comparison/stored-fit.ts'
import { Pcg32 } from '../../../src/core/random/pcg32.ts'
import { METHOD_VERSION, MODEL_VERSION } from '../../../src/core/version.ts'
import { type EvidenceRows, toRows } from '../../../src/features/fits/evidence-rows.ts'
import { fitId } from '../../../src/features/fits/identity.ts'
import { fitEvidence } from '../../../src/features/fits/model.ts'
import type { CurrentFit } from '../../../src/features/fits/repository.ts'
import { selectForRefresh, WARM_START_RUNS } from '../../../src/features/fits/warm-start.ts'

const versions = {
  quantity: 'inducedPower' as const,
  modelVersion: MODEL_VERSION,
  methodVersion: METHOD_VERSION,
}

/** A community of so many runs: 8 a session of two setups, 10 sessions a pilot. */
function rowsOf(runs: number): EvidenceRows {
  const random = new Pcg32(5, 1)
  const scatter = new Map<string, number>()
  const effect = (of: string, sd: number) => {
    if (!scatter.has(of)) scatter.set(of, sd * random.normal())
    return scatter.get(of)!
  }
  return toRows(
    Array.from({ length: runs }, (_, i) => {
      const session = `s${String(i >> 3).padStart(6, '0')}`
      const pilot = `p${Math.floor(i / 80)}`
      const setup = `k${((i >> 3) * (1 + (i & 1)) + 3 * (i & 1)) % 12}`
      const group = effect(pilot, 0.02) + effect(session, 0.03) + effect(session + setup, 0.015)
      return {
        ...{ session, pilot, setup, own: 0.01, shared: 0.01, interested: false, systematic: [] },
        y: group + 0.02 * random.normal(),
        ...{ allUpMassKg: 110, entryIndex: 0, runIndex: i & 7 },
      }
    }),
  )
}

/** The fit of these rows, as the database would hold it as the current one. */
function currentOf(rows: EvidenceRows, start: CurrentFit['start']): CurrentFit {
  const { header, converged } = fitEvidence({ ...rows, start })
  const id = fitId(versions, rows, PLAIN, start)
  const stored = JSON.parse(JSON.stringify(header)) as typeof header
  return { id, ...versions, converged, start, theta: stored.about!.theta! }
}

describe('selectForRefresh', () => {
  it('starts small communities from the data, so that a name follows from the evidence alone', () => {
    const rows = rowsOf(400)
    expect(selectForRefresh('inducedPower', rows, currentOf(rows, null)).start).toBeNull()
    expect(selectForRefresh('inducedPower', rows, null).start).toBeNull()
  })

  it('keeps the current fit where nothing changed, and else starts at its variances', () => {
    const rows = rowsOf(WARM_START_RUNS)
    const current = currentOf(rows, null)
    expect(selectForRefresh('inducedPower', rows, current).start).toBeNull()
    const more = rowsOf(WARM_START_RUNS + 8)
    const { start } = selectForRefresh('inducedPower', more, current)
    expect(start).toEqual(current.theta)
    const next = currentOf(more, start)
    expect(selectForRefresh('inducedPower', more, next).start).toEqual(start)
  })

  it('starts from the data after a change of method, and after a fit that did not settle', () => {
    const current = currentOf(rowsOf(WARM_START_RUNS), null)
    const more = rowsOf(WARM_START_RUNS + 8)
    for (const other of [
      { ...current, modelVersion: 'another' },
      { ...current, methodVersion: 'another' },
      { ...current, converged: false },
      { ...current, theta: null },
    ]) {
      expect(selectForRefresh('inducedPower', more, other).start).toBeNull()
    }
  })
})

describe('a refreshed fit', () => {
  it('is had again bit for bit from its evidence and the start it states', () => {
    const current = currentOf(rowsOf(WARM_START_RUNS), null)
    const rows = rowsOf(WARM_START_RUNS + 8)
    const refreshed = fitEvidence({ ...rows, start: current.theta })
    const stated = (JSON.parse(JSON.stringify(refreshed.header)) as typeof refreshed.header).fit
    expect(stated.keptStart).not.toBeNull()
    const again = fitEvidence({ ...rowsOf(WARM_START_RUNS + 8), start: stated.options.start })
    expect(Buffer.from(again.numbers).equals(Buffer.from(refreshed.numbers))).toBe(true)
    expect(again.header).toEqual(refreshed.header)
  })

  it('is within a hundredth of a standard error of the fit from the data', () => {
    const { theta } = currentOf(rowsOf(WARM_START_RUNS), null)
    const rows = rowsOf(WARM_START_RUNS + 8)
    const [kept, searched] = [fitEvidence({ ...rows, start: theta }), fitEvidence(rows)].map(
      ({ header, numbers }) =>
        restoreFit({ header, numbers: new Float64Array(numbers.slice().buffer) }).fit,
    )
    expect(kept!.keptStart).not.toBeNull()
    kept!.beta.forEach((estimate, k) => {
      const standardError = Math.sqrt(searched!.covariance[k * (searched!.setups.length + 1)]!)
      expect(Math.abs(estimate - searched!.beta[k]!) / standardError).toBeLessThan(0.01)
    })
  })
})
