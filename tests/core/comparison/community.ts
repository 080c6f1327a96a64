import type { SetupParts } from '../../../src/core/comparison/additive-view.ts'
import { designOfParts } from '../../../src/core/comparison/additive-view.ts'
import type { FitWithEvidence } from '../../../src/core/comparison/stored-fit.ts'
import { decompose } from '../../../src/core/mixed/decomposition.ts'
import { gatherEvidence } from '../../../src/core/mixed/evidence.ts'
import { fitNested } from '../../../src/core/mixed/fit.ts'
import { buildLayout, type Layout, type Observation } from '../../../src/core/mixed/layout.ts'
import { Pcg32 } from '../../../src/core/random/pcg32.ts'

/** ln effects of parts. */
export const EFFECTS: Readonly<Record<string, number>> = {
  e1: 0,
  e2: 0.25,
  e3: 0.4,
  p1: 0,
  p2: 0.06,
  p3: -0.04,
  f1: 0,
  f2: 0.02,
}

/** ln of what a setup without effects has: watts that climb, and litres per hour. */
export const LEVELS = { climb: 8.7, fuelFlow: 1.2 } as const

export interface Community {
  readonly seed: number
  /** Setups as engine-propeller-frame. */
  readonly setups: readonly string[]
  /** Sets of setups, each flown in turn by the sessions. */
  readonly evenings: readonly (readonly string[])[]
  readonly sessions: number
  /** Standard deviation of setups about the sum of their parts [ln]. */
  readonly interaction: number
  readonly level: number
}

/** The runs of a community with known effects of parts, and what the setups are truly worth. */
export function flyCommunity(community: Community) {
  const random = new Pcg32(community.seed, 5)
  const truth = new Map(
    community.setups.map((setup) => {
      const sum = setup.split('-').reduce((total, part) => total + EFFECTS[part]!, community.level)
      return [setup, sum + community.interaction * random.normal()]
    }),
  )
  const pilots = Math.ceil(community.sessions / 3)
  const pilotLevel = Array.from({ length: pilots }, () => 0.03 * random.normal())
  const rows: Observation[] = []
  for (let s = 0; s < community.sessions; s++) {
    const level = pilotLevel[s % pilots]! + 0.04 * random.normal()
    for (const setup of community.evenings[s % community.evenings.length]!) {
      const cell = truth.get(setup)! + level + 0.02 * random.normal()
      for (let i = 0; i < 3; i++) {
        const y = cell + Math.hypot(0.02, 0.02) * random.normal()
        rows.push({ setup, session: `s${s}`, pilot: `p${s % pilots}`, y, u: 0.02 })
      }
    }
  }
  return { rows, truth }
}

export function partsOf(setup: string): SetupParts {
  const [powerplant, propeller, frame] = setup.split('-')
  return { powerplant: powerplant!, propeller: propeller!, frame: frame! }
}

/** The fit of these runs with its evidence and its model of parts. */
export function fitCommunity(rows: readonly Observation[]): FitWithEvidence & { layout: Layout } {
  const layout = buildLayout(rows)
  const fit = fitNested(layout)
  const parts = layout.setupIds.map(partsOf)
  const decomposition = decompose(fit, designOfParts(parts))
  return {
    layout,
    fit,
    evidence: gatherEvidence(layout),
    terms: [],
    interestedSessions: layout.setupIds.map(() => 0),
    ...(decomposition === null ? {} : { additive: { parts, decomposition } }),
  }
}
