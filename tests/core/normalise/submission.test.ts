import { describe, expect, it } from 'vitest'

import { normaliseSubmission } from '../../../src/core/normalise/submission.ts'
import type { SubmittedEntry } from '../../../src/core/normalise/types.ts'
import { SCENARIO_A } from './scenario-a.ts'

const { session, entry, equipment, run } = SCENARIO_A
const entryWith = (...runs: SubmittedEntry['runs']): SubmittedEntry => ({ entry, equipment, runs })
const burn = {
  kind: 'fuelBurn',
  volumeMl: 500,
  durationS: 552,
  heightAboveSiteM: 200,
  heightChangeM: 0,
} as const

describe('normaliseSubmission', () => {
  it('gives one outcome per run, in their places', () => {
    const { outcomes, refusals } = normaliseSubmission(session, [
      entryWith(run, burn),
      entryWith(burn),
    ])
    expect(refusals).toEqual([])
    expect(outcomes?.map((runs) => runs.map((one) => one.normalized.metric))).toEqual([
      ['climbRate', 'fuelFlow'],
      ['fuelFlow'],
    ])
  })

  it('gives no outcome at all where anything is refused', () => {
    const { outcomes, refusals } = normaliseSubmission(session, [
      entryWith(run),
      entryWith({ ...run, durationS: 1 }),
    ])
    expect(outcomes).toBeNull()
    expect(refusals.map(({ pointer }) => pointer)).toEqual(['/entries/1/runs/0/durationS'])
  })

  it('lists the warnings of all runs, and with each run its own', () => {
    const wing = { flatAreaM2: 26 }
    const { warnings, outcomes } = normaliseSubmission({ ...session, wing }, [entryWith(run, burn)])
    const at = warnings.map(({ pointer, code }) => `${pointer} ${code}`)
    expect(at).toContain('/wing/glideRatio glideAssumed')
    expect(at).toContain('/entries/0/runs/1/fuelTemperatureC fuelTemperatureAssumed')
    expect(new Set(at).size).toBe(at.length)
    const [ofClimb, ofBurn] = outcomes![0]!.map((one) => one.warnings.map(({ code }) => code))
    expect(ofClimb).toEqual(['glideAssumed', 'trimSpeedAssumed'])
    expect(ofBurn).toContain('fuelTemperatureAssumed')
  })

  it('shows with a run what is unusual about it', () => {
    const { outcomes } = normaliseSubmission(session, [
      entryWith({ ...run, heightGainM: 45, durationS: 25 }),
    ])
    expect(outcomes![0]![0]!.warnings.map(({ pointer }) => pointer)).toEqual([
      '/entries/0/runs/0/heightGainM',
    ])
  })

  it('warns of a repeat that disagrees with the others', () => {
    const calm = { ...session, conditions: { ...session.conditions, airMotion: 'calm' } } as const
    const runs = [
      run,
      { ...run, durationS: 56 },
      { ...run, durationS: 54 },
      { ...run, durationS: 35 },
    ]
    const { warnings } = normaliseSubmission(calm, [entryWith(...runs)])
    const apart = warnings.filter(({ code }) => code === 'repeatsDisagree')
    expect(apart.map(({ pointer }) => pointer)).toContain('/entries/0/runs/3')
    const agreed = normaliseSubmission(calm, [entryWith(...runs.slice(0, 3))])
    expect(agreed.warnings.map(({ code }) => code)).not.toContain('repeatsDisagree')
  })

  it('takes a submission without entries or runs for empty', () => {
    expect(normaliseSubmission(session, []).outcomes).toEqual([])
    expect(normaliseSubmission(session, [entryWith()]).outcomes).toEqual([[]])
  })
})
