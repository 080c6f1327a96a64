import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  evidenceTier,
  gatherEvidence,
  restsOnOneSession,
  soleSessionFreeGroups,
} from '../../../src/core/mixed/evidence.ts'
import { buildLayout, type Observation } from '../../../src/core/mixed/layout.ts'
import { readReference } from './reference-fits.ts'

/** Sessions as lists of setups, one run each. */
const evidenceOf = (sessions: readonly (readonly string[])[]) =>
  gatherEvidence(
    buildLayout(
      sessions.flatMap((setups, s) =>
        setups.map((setup) => ({ y: 0, u: 0, setup, session: `s${s}`, pilot: `p${s % 2}` })),
      ),
    ),
  )

describe('the evidence of the unconnected reference design', () => {
  const file = readReference<{
    data: Observation[]
    setup_pairs: { a: string; b: string; setup_estimable: boolean }[]
  }>('unconnected')
  const evidence = gatherEvidence(buildLayout(file.data))

  // Source: rank of the within-session design in R, tests/reference/inference/unconnected.json.
  it('links exactly the pairs that are estimable within sessions', () => {
    expect(file.setup_pairs).toHaveLength(15)
    for (const { a, b, setup_estimable } of file.setup_pairs) {
      const tier = evidenceTier(evidence, a, b)
      expect(tier === 'direct' || tier === 'connected').toBe(setup_estimable)
      if (!setup_estimable) expect(tier).toBe('betweenSessions')
    }
  })
})

describe('evidence', () => {
  it('tells direct, connected and merely between-session comparisons apart', () => {
    const evidence = evidenceOf([['a', 'b'], ['b', 'c'], ['d', 'e'], ['d', 'e'], ['f']])
    expect(evidenceTier(evidence, 'a', 'b')).toBe('direct')
    expect(evidenceTier(evidence, 'a', 'c')).toBe('connected')
    expect(evidenceTier(evidence, 'a', 'd')).toBe('betweenSessions')
    expect(evidenceTier(evidence, 'a', 'f')).toBe('betweenSessions')
    expect(evidenceTier(evidence, 'a', 'unknown')).toBe('none')
    expect(evidenceTier(evidence, 'a', 'a')).toBe('direct')
  })

  it('finds none where no session is to spare to judge the scatter of sessions', () => {
    const evidence = evidenceOf([
      ['a', 'b'],
      ['c', 'd'],
    ])
    expect(evidence.spareSessions).toBe(0)
    expect(evidenceTier(evidence, 'a', 'c')).toBe('none')
    expect(evidenceTier(evidence, 'a', 'b')).toBe('direct')
  })

  it('counts runs, sessions, pilots and sessions in company', () => {
    const evidence = gatherEvidence(
      buildLayout(
        [
          ['a', 's1', 'p'],
          ['a', 's1', 'p'],
          ['b', 's1', 'p'],
          ['a', 's2', 'q'],
          ['a', 's3', 'q'],
          ['c', 's3', 'q'],
        ].map(([setup, session, pilot]) => ({ y: 0, u: 0, setup, session, pilot }) as Observation),
      ),
    )
    const [a, b] = evidence.setups
    expect(a).toMatchObject({ runs: 4, sessions: 3, pilots: 2, independentSessions: 2 })
    expect(b).toMatchObject({ runs: 1, sessions: 1, pilots: 1, independentSessions: 1 })
  })

  it('parts setups that only one session links, and joins blocks that meet in a setup', () => {
    // a and b share two sessions, b and c two others: two blocks that meet in b. d hangs on s4 alone.
    const evidence = evidenceOf([
      ['a', 'b'],
      ['a', 'b'],
      ['b', 'c'],
      ['b', 'c'],
      ['c', 'd'],
    ])
    expect(soleSessionFreeGroups(evidence)).toEqual([['a', 'b', 'c'], ['d']])
    expect(restsOnOneSession(evidence, 'a', 'c')).toBe(false)
    expect(restsOnOneSession(evidence, 'a', 'd')).toBe(true)
  })

  it('does not join blocks that meet in a session', () => {
    // s0 holds all four; a-b have a second session and c-d another: taking s0 away parts them.
    const evidence = evidenceOf([
      ['a', 'b', 'c', 'd'],
      ['a', 'b'],
      ['c', 'd'],
    ])
    expect(soleSessionFreeGroups(evidence)).toEqual([
      ['a', 'b'],
      ['c', 'd'],
    ])
    expect(restsOnOneSession(evidence, 'b', 'c')).toBe(true)
  })

  it('says of unlinked setups that they rest on no session', () => {
    expect(restsOnOneSession(evidenceOf([['a'], ['b']]), 'a', 'b')).toBe(false)
  })

  it('walks a chain of thousands of sessions without recursion', () => {
    const chain = Array.from({ length: 20_000 }, (_, s) => [`k${s}`, `k${s + 1}`]).slice(0, 3000)
    const evidence = evidenceOf(chain)
    expect(soleSessionFreeGroups(evidence)).toHaveLength(3001)
    const ring = evidenceOf([...chain, ['k0', 'k3000']])
    expect(soleSessionFreeGroups(ring)).toHaveLength(1)
  })
})

/** Connectivity by repeated merging of label sets; `without` is a session left out. */
function linkedWithout(
  sessions: readonly (readonly string[])[],
  without: number,
): Map<string, number> {
  const setups = [...new Set(sessions.flat())]
  const label = new Map(setups.map((setup, i) => [setup, i]))
  for (let changed = true; changed; ) {
    changed = false
    sessions.forEach((members, s) => {
      if (s === without) return
      const least = Math.min(...members.map((setup) => label.get(setup)!))
      for (const setup of members) {
        if (label.get(setup)! > least) {
          label.set(setup, least)
          changed = true
        }
      }
    })
  }
  return label
}

describe('evidence by brute force', () => {
  const sessions = fc.array(
    fc.uniqueArray(fc.constantFrom('a', 'b', 'c', 'd', 'e', 'f', 'g'), {
      minLength: 1,
      maxLength: 4,
    }),
    { minLength: 1, maxLength: 9 },
  )

  it('agrees with taking away each session in turn', () => {
    fc.assert(
      fc.property(sessions, (design) => {
        const evidence = evidenceOf(design)
        const whole = linkedWithout(design, -1)
        const reduced = design.map((_, s) => linkedWithout(design, s))
        for (const a of evidence.setupIds) {
          for (const b of evidence.setupIds) {
            if (a === b) continue
            const linked = whole.get(a) === whole.get(b)
            const survives = reduced.every((label) => label.get(a) === label.get(b))
            const tier = evidenceTier(evidence, a, b)
            expect(tier === 'direct' || tier === 'connected').toBe(linked)
            expect(restsOnOneSession(evidence, a, b)).toBe(linked && !survives)
          }
        }
      }),
      { numRuns: 500 },
    )
  })
})
