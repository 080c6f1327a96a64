import fc from 'fast-check'
import { describe, expect, it } from 'vitest'

import { readMetric } from '../../../src/core/comparison/reading.ts'
import { climbThrustN } from '../../../src/core/normalise/model/climb-thrust.ts'
import { REFERENCE, referenceWingFor } from '../../../src/core/normalise/reference.ts'

const equipment = { drive: 'twoStroke', propellerDiameterCm: 125 } as const
const reference = { equipment, state: REFERENCE }

/** Slope of ln(metric) by ln(quantity), by central difference: error of order step². */
function slope(metric: 'climbRate' | 'climbThrust' | 'fuelFlow', logQuantity: number): number {
  const step = 1e-5
  const above = readMetric(metric, logQuantity + step, reference).value
  const below = readMetric(metric, logQuantity - step, reference).value
  return Math.log(above / below) / (2 * step)
}

describe('readMetric', () => {
  it('reads fuel flow at the reference state as the estimate itself', () => {
    const { value, elasticity } = readMetric('fuelFlow', Math.log(2.8), reference)
    expect(value).toBeCloseTo(2.8, 12)
    expect(elasticity).toBe(1)
  })

  it('reads electric power as the estimate at the reference state, and as load goes elsewhere', () => {
    const { value, elasticity } = readMetric('electricPower', Math.log(4000), reference)
    expect(value).toBeCloseTo(4000, 9)
    expect(elasticity).toBe(1)
    // METHOD.md, section e: for one wing T(V + v) goes as W^1.5.
    const heavy = { equipment, state: { ...REFERENCE, allUpMassKg: 150 } }
    const more = readMetric('electricPower', Math.log(4000), heavy).value
    expect(more / 4000).toBeCloseTo(1.25 ** 1.5, 9)
  })

  it('gives elasticities that are the slopes of the readings', () => {
    fc.assert(
      fc.property(fc.double({ min: 5200, max: 14_000, noNaN: true }), (powerW) => {
        for (const metric of ['climbRate', 'climbThrust'] as const) {
          const { elasticity } = readMetric(metric, Math.log(powerW), reference)
          expect(Math.abs(elasticity! / slope(metric, Math.log(powerW)) - 1)).toBeLessThan(1e-6)
        }
      }),
    )
  })

  // METHOD.md, section d (derived): thrust follows climb with the factor
  // f = Vc/(Vc + V/G) to first order, so 15 % more climb at 2 m/s is 8.38 % more thrust.
  it('turns 15 % more climb into the thrust that carries it, not into 15 %', () => {
    const power = (climbRateMps: number) =>
      bisect((p) => readMetric('climbRate', p, reference).value - climbRateMps)
    const thrust = (climbRateMps: number) =>
      readMetric('climbThrust', power(climbRateMps), reference).value
    const ratio = thrust(2.3) / thrust(2)
    expect(ratio).toBeGreaterThan(1.08)
    expect(ratio).toBeLessThan(1.09)
    expect(thrust(2)).toBeCloseTo(climbThrustN(120, 2 / climbSpeed(2), 7), 6)
  })

  it('has no elasticity where the setup cannot climb', () => {
    const weak = readMetric('climbRate', Math.log(1500), reference)
    expect(weak.value).toBeLessThan(0)
    expect(weak.elasticity).toBeNull()
    expect(weak.withinModel).toBe(true)
  })

  it('says when the climb would be steeper than the model answers for', () => {
    const light = {
      equipment,
      state: { ...REFERENCE, allUpMassKg: 60, wing: referenceWingFor(60) },
    }
    expect(readMetric('climbRate', Math.log(40_000), light).withinModel).toBe(false)
  })
})

/** Airspeed along the path: V = V_L √cos γ with sin γ = Vc/V, solved by iteration. */
function climbSpeed(climbRateMps: number): number {
  let speed = REFERENCE.wing.trimSpeedMps as number
  for (let i = 0; i < 50; i++) {
    speed = REFERENCE.wing.trimSpeedMps * (1 - (climbRateMps / speed) ** 2) ** 0.25
  }
  return speed
}

function bisect(f: (logPower: number) => number): number {
  let [low, high] = [Math.log(3000), Math.log(20_000)]
  for (let i = 0; i < 80; i++) {
    const middle = (low + high) / 2
    if (f(middle) > 0) high = middle
    else low = middle
  }
  return (low + high) / 2
}
