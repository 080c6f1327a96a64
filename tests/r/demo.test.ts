import { describe, expect, it } from 'vitest'

import { COMPONENTS } from '../../src/core/mixed/components.ts'
import { expectAgreement, fitWith } from './agreement.ts'
import { demoEvidence } from './demo-evidence.ts'
import { askR, MISSING, type RefereedRun } from './referee.ts'

// Referee: R, run now. metafor takes known uncertainties; lme4 with lmerTest takes none, and gives
// Satterthwaite's degrees of freedom.

const title = MISSING === null ? 'the demo before R' : `the demo before R (skipped: ${MISSING})`

describe.skipIf(MISSING !== null)(title, { timeout: 240_000 }, () => {
  it.each(['inducedPower', 'fuelFlow'] as const)(
    'has the fit of metafor on %s with what runs and sessions are known to be uncertain by',
    async (quantity) => {
      const runs = await demoEvidence(quantity)
      expect(runs.every(({ u, shared }) => u > 0 && shared > 0)).toBe(true)
      const components = separable(runs)
      const verdict = await askR('metafor', runs, components)
      report(quantity, runs, verdict.versions)
      expectAgreement(fitWith(runs, components), verdict)
    },
  )

  it.each(['inducedPower', 'fuelFlow'] as const)(
    'has the fit and the degrees of freedom of lme4 and lmerTest on %s taken as exact',
    async (quantity) => {
      const runs = (await demoEvidence(quantity)).map((run) => ({ ...run, u: 0, shared: 0 }))
      const components = separable(runs)
      const verdict = await askR('lme4', runs, components)
      report(quantity, runs, verdict.versions)
      expectAgreement(fitWith(runs, components), verdict)
    },
  )
})

/** A cell with one run everywhere cannot be told from the run. */
function separable(runs: readonly RefereedRun[]) {
  const cells = new Set(runs.map(({ setup, session }) => `${setup} ${session}`))
  return cells.size === runs.length ? COMPONENTS.filter((c) => c !== 'cell') : COMPONENTS
}

function report(quantity: string, runs: readonly RefereedRun[], versions: string): void {
  process.stdout.write(`    ${quantity}, ${runs.length} runs: ${versions}\n`)
}
