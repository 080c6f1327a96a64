import fc from 'fast-check'
import { describe, expect, it } from 'vitest'

import { OutOfRangeError } from '../../../src/core/errors.ts'
import {
  gyroscopicMomentNm,
  type MountedPropeller,
  requiredClearanceMm,
  tipMovement,
} from '../../../src/core/safety/tip-movement.ts'
import { checkValue, expectRow } from '../normalise/check-values.ts'

/** The worked example of METHOD.md, section i. */
const WORKED: MountedPropeller = {
  thrustN: 700,
  thrustLineM: 0.1,
  mounts: [0.08, 0.08, -0.08, -0.08].map((heightM) => ({ heightM, stiffnessNPerM: 100_000 })),
  tipRadiusM: 0.65,
  gyroscopicMomentNm: 0,
}

const mounted = fc.record({
  thrustN: fc.double({ min: 0, max: 1500, noNaN: true }),
  thrustLineM: fc.double({ min: -0.2, max: 0.3, noNaN: true }),
  mounts: fc
    .array(
      fc.record({
        stiffnessNPerM: fc.double({ min: 2e4, max: 3e5, noNaN: true }),
        heightM: fc.double({ min: 0.03, max: 0.2, noNaN: true }),
      }),
      { minLength: 1, maxLength: 4 },
    )
    .map((upper) => [...upper, { stiffnessNPerM: 1e5, heightM: -0.08 }]),
  tipRadiusM: fc.double({ min: 0.5, max: 0.8, noNaN: true }),
  gyroscopicMomentNm: fc.double({ min: 0, max: 40, noNaN: true }),
})

describe('the movement of the tips', () => {
  // A regression value, computed by the team from the stated formula: nothing published.
  it('is that of the worked example', () => {
    const { topM, tiltRad, bottomM } = tipMovement(WORKED)
    expectRow(checkValue('tip-shift'), [1000 * topM])
    // Section i prints 1.57°; half a unit of its last digit.
    expect((tiltRad * 180) / Math.PI).toBeCloseTo(1.57, 2)
    // By hand from the formula: 1.75 mm − 0.02734375 × 550 mm.
    expect(1000 * bottomM).toBeCloseTo(1.75 - 0.02734375 * 550, 9)
  })

  it('is a plain shift where the thrust pulls at the centre of the mounts', () => {
    const { topM, bottomM, tiltRad } = tipMovement({ ...WORKED, thrustLineM: 0 })
    expect(topM).toBeCloseTo(700 / 400_000, 12)
    expect(bottomM).toBeCloseTo(topM, 12)
    expect(tiltRad).toBe(0)
  })

  it('does not depend on where heights are counted from', () => {
    fc.assert(
      fc.property(mounted, fc.double({ min: -1, max: 1, noNaN: true }), (given, up) => {
        const raised = {
          ...given,
          thrustLineM: given.thrustLineM + up,
          mounts: given.mounts.map((mount) => ({ ...mount, heightM: mount.heightM + up })),
        }
        // Rounding of the heights' differences only: micrometres of a metre's height.
        expect(tipMovement(raised).topM).toBeCloseTo(tipMovement(given).topM, 9)
        expect(tipMovement(raised).bottomM).toBeCloseTo(tipMovement(given).bottomM, 9)
      }),
    )
  })

  it('grows with the load and shrinks with the stiffness, in proportion', () => {
    fc.assert(
      fc.property(mounted, fc.double({ min: 0.5, max: 2, noNaN: true }), (given, factor) => {
        const loaded = tipMovement({
          ...given,
          thrustN: given.thrustN * factor,
          gyroscopicMomentNm: given.gyroscopicMomentNm * factor,
        })
        const softer = tipMovement({
          ...given,
          mounts: given.mounts.map((mount) => ({
            ...mount,
            stiffnessNPerM: mount.stiffnessNPerM / factor,
          })),
        })
        expect(loaded.topM).toBeCloseTo(factor * tipMovement(given).topM, 9)
        expect(softer.topM).toBeCloseTo(loaded.topM, 9)
      }),
    )
  })

  it('is never less for turning, at either tip', () => {
    fc.assert(
      fc.property(mounted, (given) => {
        const still = tipMovement({ ...given, gyroscopicMomentNm: 0 })
        const turning = tipMovement(given)
        expect(turning.topM).toBeGreaterThanOrEqual(still.topM)
        expect(turning.bottomM).toBeGreaterThanOrEqual(still.bottomM)
      }),
    )
  })

  it('is the same for the mounts in any order', () => {
    fc.assert(
      fc.property(mounted, (given) => {
        const reversed = { ...given, mounts: [...given.mounts].reverse() }
        expect(tipMovement(reversed).topM).toBeCloseTo(tipMovement(given).topM, 12)
      }),
    )
  })

  it.each<[what: string, change: Partial<MountedPropeller>]>([
    ['a thrust that is no number', { thrustN: Number.NaN }],
    ['a thrust below zero', { thrustN: -1 }],
    ['a radius of nothing', { tipRadiusM: 0 }],
    ['a negative moment', { gyroscopicMomentNm: -1 }],
    ['no mounts', { mounts: [] }],
    ['a single mount', { mounts: [{ stiffnessNPerM: 1e5, heightM: 0.1 }] }],
    [
      'mounts of one height',
      { mounts: [1, 2, 3].map(() => ({ stiffnessNPerM: 1e5, heightM: 0.0803 })) },
    ],
    ['a mount that does not resist', { mounts: [{ stiffnessNPerM: 0, heightM: 0 }] }],
  ])('is refused for %s', (_, change) => {
    expect(() => tipMovement({ ...WORKED, ...change })).toThrow(OutOfRangeError)
  })
})

describe('the gyroscopic moment', () => {
  it('is inertia times speed times rate of turning', () => {
    // By hand: 0.05 kg m² × 2800/60 × 2π rad/s × 1.2 rad/s = 17.593 N m.
    expect(gyroscopicMomentNm(0.05, 2800, 1.2)).toBeCloseTo(17.593, 3)
    expect(gyroscopicMomentNm(0.05, 2800, 0)).toBe(0)
  })

  it.each([
    [Number.NaN, 2800, 1],
    [0.05, -1, 1],
    [0.05, 2800, 11],
  ])('is refused for %d, %d, %d', (inertia, rpm, rate) => {
    expect(() => gyroscopicMomentNm(inertia, rpm, rate)).toThrow(OutOfRangeError)
  })
})

describe('the required clearance', () => {
  it('is one and a half times the movement, the bending and 10 mm', () => {
    expect(requiredClearanceMm(20, 4)).toBe(44)
  })

  it('keeps its 10 mm where the tips move away', () => {
    expect(requiredClearanceMm(-30, 0)).toBe(10)
  })

  it('is refused for what is no length', () => {
    expect(() => requiredClearanceMm(Number.NaN, 0)).toThrow(OutOfRangeError)
    expect(() => requiredClearanceMm(10, -1)).toThrow(OutOfRangeError)
  })
})
