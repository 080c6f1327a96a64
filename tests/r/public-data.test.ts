import { describe, expect, it } from 'vitest'

import type { Component } from '../../src/core/mixed/components.ts'
import { expectAgreement, fitWith } from './agreement.ts'
import { askR, MISSING, publicRuns } from './referee.ts'

interface PublicData {
  readonly name: string
  readonly referee: 'lme4' | 'metafor'
  readonly runs: number
  readonly components: readonly Component[]
}

/** Data of R packages with groups in groups; none of them is among the fixtures. */
const DATA: readonly PublicData[] = [
  { name: 'oxide', referee: 'lme4', runs: 72, components: ['pilot', 'session', 'run'] },
  { name: 'cake', referee: 'lme4', runs: 270, components: ['pilot', 'session', 'run'] },
  { name: 'assink2016', referee: 'metafor', runs: 100, components: ['session', 'cell', 'run'] },
]

const title = MISSING === null ? 'public data before R' : `public data (skipped: ${MISSING})`

describe.skipIf(MISSING !== null)(title, { timeout: 120_000 }, () => {
  it.each(DATA)(
    'has the fit of $referee on $name',
    async ({ name, referee, components, ...data }) => {
      const runs = await publicRuns(name)
      expect(runs).toHaveLength(data.runs)
      const verdict = await askR(referee, runs, components)
      process.stdout.write(`    ${name}, ${runs.length} runs: ${verdict.versions}\n`)
      expectAgreement(fitWith(runs, components), verdict)
    },
  )
})
