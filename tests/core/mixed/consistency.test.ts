import { describe, expect, it } from 'vitest'

import { splitNodes, testDesigns } from '../../../src/core/mixed/consistency.ts'
import { UnknownSetupError } from '../../../src/core/mixed/contrasts.ts'
import { fitNested } from '../../../src/core/mixed/fit.ts'
import { buildLayout, type Observation } from '../../../src/core/mixed/layout.ts'
import { Pcg32 } from '../../../src/core/random/pcg32.ts'
import { readReference } from './reference-fits.ts'

interface Inconsistency {
  readonly data: readonly Omit<Observation, 'pilot'>[]
  readonly split: { readonly est: number; readonly se: number; readonly s2_arm: number }
  readonly design_by_treatment: {
    readonly Q_inconsistency: number
    readonly df: number
    readonly p: number
  }
}

// Source: tests/reference/inference/senn2013_inconsistency.json, metafor 3.8-1 on dat.senn2013 (S. Senn
// et al., Stat. Methods Med. Res. 22, 2013, 169-189). Tolerance 1e-9 of the value, as its README states.
const {
  data,
  split,
  design_by_treatment: designs,
} = readReference<Inconsistency>('senn2013_inconsistency')
const senn = buildLayout(data.map((row) => ({ ...row, pilot: row.session })))

describe('the diabetes network of Senn 2013', () => {
  it('has the node split of metformin against placebo that metafor gives', () => {
    const [found] = splitNodes(senn, { cell: split.s2_arm, run: 0 }, [['metformin', 'placebo']])
    expect(Math.abs(found!.difference / split.est - 1)).toBeLessThan(1e-9)
    expect(Math.abs(found!.standardError / split.se - 1)).toBeLessThan(1e-9)
    expect(found!.sessions).toBe(
      new Set(data.filter((row) => 'split' in row && row.split !== 0).map((row) => row.session))
        .size,
    )
  })

  it('has the design-by-treatment test of metafor: Q 22.534 on 7 degrees of freedom', () => {
    const found = testDesigns(senn, { cell: 0, run: 0 })!
    expect(found.degreesOfFreedom).toBe(designs.df)
    expect(Math.abs(found.statistic / designs.Q_inconsistency - 1)).toBeLessThan(1e-9)
    expect(Math.abs(found.pValue / designs.p - 1)).toBeLessThan(1e-8)
  })

  it('has the same split whichever of the two is named first, but for the sign', () => {
    const [there, back] = splitNodes(senn, { cell: 0.05, run: 0 }, [
      ['metformin', 'placebo'],
      ['placebo', 'metformin'],
    ])
    expect(there!.difference).toBeCloseTo(-back!.difference, 12)
    expect(there!.standardError).toBeCloseTo(back!.standardError, 12)
  })
})

/** Sessions of two setups in a ring a-b, b-c, c-a; `bend` is added to a in sessions with b. */
function ring(seed: number, bend: number): Observation[] {
  const random = new Pcg32(seed)
  const pairs = ['ab', 'bc', 'ca']
  return Array.from({ length: 24 }, (_, s) => {
    const pair = pairs[s % 3]!
    const level = 0.05 * random.normal()
    return [...pair].flatMap((setup) => {
      const cell = level + 0.02 * random.normal() + (setup === 'a' && pair === 'ab' ? bend : 0)
      const runs = [0, 1].map(() => cell + 0.02 * random.normal())
      return runs.map((y) => ({ setup, session: `s${s}`, pilot: `p${s % 6}`, y, u: 0 }))
    })
  }).flat()
}

describe('a ring of three setups', () => {
  // 5 % of 400 are 20, with a standard deviation of 4.4; estimated variances and the normal instead of
  // the t distribution add a little: 24 sessions leave about 20 degrees of freedom, so about 6.4 %.
  it('is seldom called inconsistent when it is not', () => {
    const alarms = { split: 0, designs: 0 }
    for (let seed = 0; seed < 400; seed++) {
      const layout = buildLayout(ring(seed, 0))
      const { theta } = fitNested(layout)
      if (splitNodes(layout, theta, [['a', 'b']])[0]!.pValue < 0.05) alarms.split++
      if (testDesigns(layout, theta)!.pValue < 0.05) alarms.designs++
    }
    for (const count of Object.values(alarms)) {
      expect(count).toBeGreaterThan(400 * 0.05 - 4 * 4.4)
      expect(count).toBeLessThan(400 * 0.064 + 4 * 4.9)
    }
  })

  it('shows a contradiction that is there, in both tests, with its size', () => {
    const layout = buildLayout(ring(7, 0.1))
    const { theta } = fitNested(layout)
    const [found] = splitNodes(layout, theta, [['a', 'b']])
    expect(Math.abs(found!.difference - 0.1)).toBeLessThan(3 * found!.standardError)
    expect(found!.pValue).toBeLessThan(0.01)
    expect(testDesigns(layout, theta)!.pValue).toBeLessThan(0.01)
  })
})

describe('what cannot be split', () => {
  it('is a pair that no session holds, and one without a way round', () => {
    const chain = ring(1, 0).filter(({ session }) => Number(session.slice(1)) % 3 !== 2)
    const layout = buildLayout(chain)
    const found = splitNodes(layout, { cell: 0.0004, run: 0.0004 }, [
      ['a', 'c'],
      ['a', 'b'],
    ])
    expect(found).toEqual([null, null])
    expect(testDesigns(layout, { cell: 0.0004, run: 0.0004 })).toBeNull()
  })

  it('is a setup that was not flown', () => {
    expect(() => splitNodes(senn, { cell: 0, run: 0 }, [['metformin', 'x']])).toThrow(
      UnknownSetupError,
    )
  })
})
