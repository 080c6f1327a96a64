import { viewOf } from '../../../src/core/comparison/stored-fit.ts'
import { gatherEvidence } from '../../../src/core/mixed/evidence.ts'
import { fitNested } from '../../../src/core/mixed/fit.ts'
import { buildLayout, type Observation } from '../../../src/core/mixed/layout.ts'
import { nextSessionSpread } from '../../../src/core/mixed/next-session.ts'
import type { SetupEvidence } from '../../../src/core/prediction/question.ts'
import { Pcg32 } from '../../../src/core/random/pcg32.ts'

/** Twelve sessions of two setups, one session of a third, by four pilots, about a level. */
function runs(level: number): Observation[] {
  const random = new Pcg32(11)
  return Array.from({ length: 13 }, (_, session) => {
    const day = 0.03 * random.normal()
    const setups = session === 12 ? ['once'] : ['plain', 'tuned']
    return setups.flatMap((setup) =>
      Array.from({ length: 3 }, () => ({
        setup,
        session: `s${session}`,
        pilot: `p${session % 4}`,
        u: 0.03,
        y: level + (setup === 'tuned' ? 0.08 : 0) + day + 0.02 * random.normal(),
      })),
    )
  }).flat()
}

/** What a fit of simulated flights says; its setups are plain, tuned and once. */
export function evidenceAbout(level: number, observations = runs(level)): SetupEvidence {
  const layout = buildLayout(observations)
  const fit = fitNested(layout)
  const view = viewOf({
    fit,
    evidence: gatherEvidence(layout),
    terms: [],
    interestedSessions: fit.setups.map(() => 0),
  })
  return {
    view,
    nextSession: (setup) =>
      nextSessionSpread(fit, setup, view.contrast([{ setup, weight: 1 }]).standardError),
  }
}
