import fc from 'fast-check'
import { describe, expect, it } from 'vitest'

import { climbAt, fuelFlowAt, REFERENCE } from '../../../src/core/normalise/predict.ts'
import { prepareRun } from '../../../src/core/normalise/prepare.ts'
import { knownSession, normaliseRun } from '../../../src/core/normalise/run.ts'
import type { RunInput } from '../../../src/core/normalise/types.ts'
import { KELVIN_OFFSET, PA_PER_HPA } from '../../../src/core/units.ts'
import { type Everyday, everyday } from './arbitraries.ts'

const climbOf = ({ climb, ...rest }: Everyday): RunInput => ({ ...rest, run: climb })
const burnOf = ({ burn, ...rest }: Everyday): RunInput => ({ ...rest, run: burn })

function flownClimb(input: RunInput) {
  const known = knownSession(input.session, input.entry.allUpMassKg)
  const prepared = prepareRun(known, input)
  if (prepared.kind !== 'climb') throw new Error('not a climb')
  return prepared.climb.flown
}

function flownBurn(input: RunInput) {
  const known = knownSession(input.session, input.entry.allUpMassKg)
  const prepared = prepareRun(known, input)
  if (prepared.kind !== 'fuelBurn') throw new Error('not a burn')
  return prepared.burn.flown
}

describe('a climb', () => {
  it('comes back from the reference state as it was flown', () => {
    fc.assert(
      fc.property(everyday, (given) => {
        const flown = flownClimb(climbOf(given))
        const { session, entry, equipment } = given
        const { wing } = session
        const back = climbAt(
          { inducedPowerW: flown.inducedPowerW, ...equipment },
          {
            allUpMassKg: entry.allUpMassKg,
            elevationM: session.site.elevationM,
            temperatureC: flown.air.temperatureK - KELVIN_OFFSET,
            stationPressureHPa: flown.air.pressurePa / PA_PER_HPA,
            relativeHumidityPct: session.conditions.relativeHumidityPct,
            wing: {
              flatAreaM2: wing.flatAreaM2,
              glideRatio: wing.glideRatio!,
              trimSpeedMps: wing.trimSpeedMps!,
              trimAtAllUpMassKg: wing.trimAtAllUpMassKg!,
            },
          },
        )
        expect(Math.abs(back.climbRateMps - flown.climbRateMps)).toBeLessThan(1e-9)
        expect(Math.abs(back.thrustN / flown.thrustN - 1)).toBeLessThan(1e-9)
      }),
    )
  })

  it('predicts its own value at the reference state', () => {
    fc.assert(
      fc.property(everyday, (given) => {
        const { normalized } = normaliseRun(climbOf(given))
        const { inducedPowerW } = normalized
        const there = climbAt({ inducedPowerW: inducedPowerW!, ...given.equipment }, REFERENCE)
        expect(Math.abs(there.climbRateMps - normalized.value)).toBeLessThan(1e-9)
        expect(there.thrustN).toBeCloseTo(normalized.thrustN!, 7)
      }),
    )
  })

  it('shows more power when it took less time, less when the mass was less', () => {
    fc.assert(
      fc.property(everyday, (given) => {
        const power = (change: Partial<Everyday>) =>
          normaliseRun(climbOf({ ...given, ...change })).normalized.inducedPowerW!
        const { climb, entry } = given
        const plain = power({})
        expect(power({ climb: { ...climb, durationS: climb.durationS - 1 } })).toBeGreaterThan(
          plain,
        )
        expect(power({ entry: { ...entry, allUpMassKg: entry.allUpMassKg - 1 } })).toBeLessThan(
          plain,
        )
      }),
    )
  })
})

describe('a fuel burn', () => {
  it('comes back from the reference state as level flight at the mean mass', () => {
    fc.assert(
      fc.property(everyday, (given) => {
        const flown = flownBurn(burnOf(given))
        const { session, equipment } = given
        const { wing } = session
        const back = fuelFlowAt(
          { fuelFlowLPerH: flown.referenceFlowLPerH, ...equipment },
          {
            allUpMassKg: flown.meanMassKg,
            elevationM: session.site.elevationM,
            temperatureC: flown.air.temperatureK - KELVIN_OFFSET,
            stationPressureHPa: flown.air.pressurePa / PA_PER_HPA,
            relativeHumidityPct: session.conditions.relativeHumidityPct,
            wing: {
              flatAreaM2: wing.flatAreaM2,
              glideRatio: wing.glideRatio!,
              trimSpeedMps: wing.trimSpeedMps!,
              trimAtAllUpMassKg: wing.trimAtAllUpMassKg!,
            },
          },
        )
        expect(Math.abs(back / (flown.fuelFlowLPerH * flown.levelFactor) - 1)).toBeLessThan(1e-9)
      }),
    )
  })

  it('predicts its own value at the reference state', () => {
    fc.assert(
      fc.property(everyday, (given) => {
        const { value } = normaliseRun(burnOf(given)).normalized
        const there = fuelFlowAt({ fuelFlowLPerH: value, ...given.equipment }, REFERENCE)
        expect(Math.abs(there / value - 1)).toBeLessThan(1e-12)
      }),
    )
  })
})

describe('a budget', () => {
  const inputs = fc.oneof(everyday.map(climbOf), everyday.map(burnOf))

  it('has shares that sum to 1 and lines that make up the whole', () => {
    fc.assert(
      fc.property(inputs, (input) => {
        const { budget, standardUncertainty } = normaliseRun(input).normalized
        expect(budget.reduce((sum, line) => sum + line.share, 0)).toBeCloseTo(1, 12)
        const lines = Math.hypot(...budget.map((line) => line.standardUncertainty))
        expect(Math.abs(lines / standardUncertainty - 1)).toBeLessThan(1e-12)
        const shares = budget.map((line) => line.share)
        expect(shares).toEqual([...shares].sort((a, b) => b - a))
      }),
    )
  })

  // The evidence of a fuel burn is the logarithm of its value. Both come from the same steps, so
  // u(ln ff) and u(ff)/ff agree but for the curvature of the logarithm over one step, 2 % at most here.
  it('agrees with own and shared uncertainty of the evidence', () => {
    fc.assert(
      fc.property(everyday.map(burnOf), (input) => {
        const { normalized, evidence: known } = normaliseRun(input)
        const evidence = known!
        const reaching = evidence.systematic.map(({ effect }) => effect)
        const sharedOfAll = Math.hypot(evidence.sharedStandardUncertainty, ...reaching)
        const total = Math.hypot(evidence.ownStandardUncertainty, sharedOfAll)
        const relative = normalized.standardUncertainty / normalized.value
        expect(Math.abs(total / relative - 1)).toBeLessThan(0.02)
        const shared = normalized.budget
          .filter((line) => line.sharedWithinSession)
          .reduce((sum, line) => sum + line.share, 0)
        expect(Math.abs(sharedOfAll ** 2 / total ** 2 - shared)).toBeLessThan(0.02)
      }),
    )
  })

  // Two climbs of one session, own errors aside: what they share moves both by the same factor, so a
  // change of shared inputs alone leaves the ratio of the two powers nearly as it was.
  it('calls shared what cancels between two climbs of one session', () => {
    fc.assert(
      fc.property(everyday, (given) => {
        const slower = { ...given.climb, durationS: given.climb.durationS * 1.05 }
        const difference = (change: Partial<Everyday>) =>
          normaliseRun(climbOf({ ...given, ...change })).evidence!.logValue -
          normaliseRun(climbOf({ ...given, climb: slower, ...change })).evidence!.logValue
        const alone = normaliseRun(climbOf(given))
        const warmer = {
          ...given.session,
          conditions: {
            ...given.session.conditions,
            temperatureC: given.session.conditions.temperatureC + 1.5,
          },
        }
        const moved = Math.abs(
          normaliseRun(climbOf({ ...given, session: warmer })).evidence!.logValue -
            alone.evidence!.logValue,
        )
        const remains = Math.abs(
          normaliseRun(climbOf({ ...given, session: warmer })).evidence!.logValue -
            normaliseRun(climbOf({ ...given, session: warmer, climb: slower })).evidence!.logValue -
            difference({}),
        )
        expect(remains).toBeLessThan(0.15 * moved)
      }),
    )
  })
})

describe('an unchanged physics in other units', () => {
  it('does not care whether the pressure is given as QNH or as pressure at the field', () => {
    fc.assert(
      fc.property(everyday, (given) => {
        const { conditions, site } = given.session
        const byQnh = normaliseRun(climbOf(given))
        const { qnhHPa, ...others } = conditions
        const stationPressureHPa = stationHPa(qnhHPa!, site.elevationM)
        const session = { ...given.session, conditions: { ...others, stationPressureHPa } }
        const byStation = normaliseRun(climbOf({ ...given, session }))
        expect(Math.abs(byStation.normalized.value - byQnh.normalized.value)).toBeLessThan(1e-9)
      }),
    )
  })
})

function stationHPa(qnhHPa: number, elevationM: number): number {
  // Definition of QNH, written out once more, independent of the core.
  const x = 9.80665 / (287.05287 * 0.0065)
  return 1013.25 * ((qnhHPa / 1013.25) ** (1 / x) - (0.0065 * elevationM) / 288.15) ** x
}
