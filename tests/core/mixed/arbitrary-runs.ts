import fc from 'fast-check'
import type { Observation } from '../../../src/core/mixed/layout.ts'
import { Pcg32 } from '../../../src/core/random/pcg32.ts'

/** Shape of a simulated campaign. */
export interface CampaignShape {
  readonly seed: number
  readonly pilots: number
  readonly sessionsPerPilot: number
  readonly setupsPerSession: number
  readonly runsPerCell: number
  readonly setups: number
  /** Standard deviations of pilots, sessions, cells and runs [unit of y]. */
  readonly scatter: readonly [number, number, number, number]
  /** Largest known uncertainty of a run [unit of y]; 0 for none. */
  readonly largestUncertainty: number
}

const LEVEL = 1.5
const SETUP_STEP = 0.1

/** Runs with known truth: setup k has mean 1.5 + 0.1 k. Sizes vary up to the given ones. */
export function simulateRuns(shape: CampaignShape): Observation[] {
  const random = new Pcg32(shape.seed, 7)
  const [pilotScatter, sessionScatter, cellScatter, runScatter] = shape.scatter
  const rows: Observation[] = []
  for (let p = 0; p < shape.pilots; p++) {
    const pilot = pilotScatter * random.normal()
    const sessions = 1 + random.int(shape.sessionsPerPilot)
    for (let s = 0; s < sessions; s++) {
      const session = pilot + sessionScatter * random.normal()
      const order = random.shuffle(Array.from({ length: shape.setups }, (_, k) => k))
      for (const k of order.slice(0, 1 + random.int(shape.setupsPerSession))) {
        const cell = session + cellScatter * random.normal()
        const runs = 1 + random.int(shape.runsPerCell)
        for (let r = 0; r < runs; r++) {
          const u = shape.largestUncertainty * random.uniform()
          rows.push({
            y: LEVEL + SETUP_STEP * k + cell + Math.hypot(runScatter, u) * random.normal(),
            u,
            setup: `setup ${k}`,
            session: `session ${p}-${s}`,
            pilot: `pilot ${p}`,
          })
        }
      }
    }
  }
  return rows
}

/** Small campaigns of every kind: with and without known uncertainty, sparse and dense. */
export const smallRuns: fc.Arbitrary<Observation[]> = fc
  .record({
    seed: fc.nat(),
    pilots: fc.integer({ min: 1, max: 4 }),
    sessionsPerPilot: fc.integer({ min: 1, max: 4 }),
    setupsPerSession: fc.integer({ min: 1, max: 3 }),
    runsPerCell: fc.integer({ min: 1, max: 3 }),
    setups: fc.integer({ min: 1, max: 4 }),
    scatter: fc.constantFrom<readonly [number, number, number, number]>(
      [0.03, 0.05, 0.02, 0.03],
      [0, 0.05, 0, 0.03],
      [0.05, 0, 0.01, 0.02],
    ),
    largestUncertainty: fc.constantFrom(0, 0.03),
  })
  .map((shape) =>
    simulateRuns({ ...shape, setupsPerSession: Math.min(shape.setupsPerSession, shape.setups) }),
  )
