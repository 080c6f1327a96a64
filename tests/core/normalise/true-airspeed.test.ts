import fc from 'fast-check'
import { describe, expect, it } from 'vitest'

import { OutOfRangeError } from '../../../src/core/errors.ts'
import { angleBetweenDeg, type Leg } from '../../../src/core/normalise/model/ground-vector.ts'
import {
  airspeedAndWind,
  airspeedOf120DegreeSpeeds,
} from '../../../src/core/normalise/model/true-airspeed.ts'
import { MPS_PER_KNOT } from '../../../src/core/units.ts'
import { checkValue, expectRow } from './check-values.ts'

interface Legs {
  readonly gs: readonly number[]
  readonly track: readonly number[]
}

const legsOf = (id: string): Leg[] => {
  const { gs, track } = checkValue(id).inputs as unknown as Legs
  return gs.map((groundSpeedMps, i) => ({ groundSpeedMps, trackDeg: track[i]! }))
}

/** What a receiver would show on these headings. */
const flown = (
  headingsDeg: readonly number[],
  { airspeed, wind, from }: { airspeed: number; wind: number; from: number },
): Leg[] =>
  headingsDeg.map((headingDeg) => {
    const rad = (deg: number) => (deg * Math.PI) / 180
    const x = airspeed * Math.sin(rad(headingDeg)) - wind * Math.sin(rad(from))
    const y = airspeed * Math.cos(rad(headingDeg)) - wind * Math.cos(rad(from))
    return {
      groundSpeedMps: Math.hypot(x, y),
      trackDeg: ((Math.atan2(x, y) * 180) / Math.PI + 360) % 360,
    }
  })

describe('airspeedAndWind', () => {
  // Gray 1998 as reproduced in public code (seen): 130 kt, wind 20.6 kt from 314.8°.
  it('gives the published three-leg example', () => {
    const { trueAirspeedMps, windMps, windFromDeg, rmsMps } = airspeedAndWind(legsOf('gps-gray'))
    expectRow(checkValue('gps-gray'), [trueAirspeedMps, windMps, windFromDeg])
    expect(rmsMps).toBeNull()
  })

  // NTPS sample as carried by the docstring of a public library (seen): mean and sample standard
  // deviation of the four solutions with three legs each. Least squares over all four: 183.722.
  it('gives the published four-leg example, three legs at a time', () => {
    const legs = legsOf('gps-ntps4')
    const four = legs.map(
      (_, left) => airspeedAndWind(legs.filter((__, i) => i !== left)).trueAirspeedMps,
    )
    const mean = four.reduce((sum, v) => sum + v, 0) / 4
    const sd = Math.sqrt(four.reduce((sum, v) => sum + (v - mean) ** 2, 0) / 3)
    expectRow(checkValue('gps-ntps4'), [mean, sd])
  })

  it('fits all four legs by least squares', () => {
    const { trueAirspeedMps, rmsMps } = airspeedAndWind(legsOf('gps-ntps4'))
    // Regression value of the specification, computed by the team in another implementation.
    expect(Math.abs(trueAirspeedMps - 183.722)).toBeLessThan(0.0006)
    expect(rmsMps).toBeGreaterThan(0)
  })

  // Kitplanes (seen): TAS 100, wind 20 along a cardinal heading; the plain mean is 101.
  it('is not misled as the plain mean of four ground speeds is', () => {
    const { TAS, wind } = checkValue('gps-mean-wrong').inputs as { TAS: number; wind: number }
    const legs = flown([0, 90, 180, 270], { airspeed: TAS, wind, from: 0 })
    const mean = legs.reduce((sum, leg) => sum + leg.groundSpeedMps, 0) / 4
    expectRow(checkValue('gps-mean-wrong'), [mean])
    expect(airspeedAndWind(legs).trueAirspeedMps).toBeCloseTo(TAS, 9)
  })

  const flight = fc.record({
    airspeed: fc.double({ min: 6, max: 20, noNaN: true }),
    ratio: fc.double({ min: 0, max: 0.85, noNaN: true }),
    from: fc.double({ min: 0, max: 360, noNaN: true, maxExcluded: true }),
    first: fc.double({ min: 0, max: 360, noNaN: true }),
    legs: fc.integer({ min: 3, max: 12 }),
  })

  it('finds again what was flown, from three legs or more', () => {
    fc.assert(
      fc.property(flight, ({ airspeed, ratio, from, first, legs }) => {
        const headings = Array.from({ length: legs }, (_, i) => first + (360 * i) / legs)
        const wind = ratio * airspeed
        const found = airspeedAndWind(flown(headings, { airspeed, wind, from }))
        expect(Math.abs(found.trueAirspeedMps - airspeed)).toBeLessThan(1e-9)
        expect(Math.abs(found.windMps - wind)).toBeLessThan(1e-9)
        if (wind > 0.01) expect(angleBetweenDeg(found.windFromDeg, from)).toBeLessThan(1e-5)
        // Evenly spread headings: n legs are √n times as good as one.
        expect(found.dilution).toBeCloseTo(1 / Math.sqrt(legs), 9)
        if (legs > 3) expect(found.rmsMps).toBeLessThan(1e-9)
      }),
    )
  })

  it('does not depend on the order of the legs, nor on where north is', () => {
    fc.assert(
      fc.property(flight, fc.double({ min: 0, max: 360, noNaN: true }), (drawn, turn) => {
        const { airspeed, ratio, from, first, legs } = drawn
        const headings = Array.from({ length: legs }, (_, i) => first + (360 * i) / legs)
        const exact = flown(headings, { airspeed, wind: ratio * airspeed, from })
        // Not quite on a circle, so that the least squares have something to do.
        const given = exact.map((leg, i) => ({
          ...leg,
          groundSpeedMps: leg.groundSpeedMps + 0.2 * Math.sin(5 * i + 1),
        }))
        const there = airspeedAndWind(given)
        const turned = given.map((leg) => ({ ...leg, trackDeg: leg.trackDeg + turn })).reverse()
        const { trueAirspeedMps, windMps } = airspeedAndWind(turned)
        expect(Math.abs(trueAirspeedMps - there.trueAirspeedMps)).toBeLessThan(1e-7)
        expect(Math.abs(windMps - there.windMps)).toBeLessThan(1e-7)
      }),
    )
  })

  it('finds the least squares: no wind nearby fits better', () => {
    const legs = legsOf('gps-ntps4')
    const { windMps, windFromDeg, rmsMps } = airspeedAndWind(legs)
    const rad = (deg: number) => (deg * Math.PI) / 180
    const squaresAt = (dx: number, dy: number) => {
      const wx = -windMps * Math.sin(rad(windFromDeg)) + dx
      const wy = -windMps * Math.cos(rad(windFromDeg)) + dy
      const distances = legs.map(({ groundSpeedMps: g, trackDeg }) =>
        Math.hypot(g * Math.sin(rad(trackDeg)) - wx, g * Math.cos(rad(trackDeg)) - wy),
      )
      const mean = distances.reduce((sum, d) => sum + d, 0) / distances.length
      return distances.reduce((sum, d) => sum + (d - mean) ** 2, 0)
    }
    const least = squaresAt(0, 0)
    expect(Math.abs(least - rmsMps! ** 2)).toBeLessThan(1e-9)
    for (const [dx, dy] of [
      [0.01, 0],
      [-0.01, 0],
      [0, 0.01],
      [0, -0.01],
    ] as const) {
      expect(squaresAt(dx, dy)).toBeGreaterThan(least)
    }
  })

  it.each<[what: string, legs: Leg[]]>([
    ['opposite tracks only', flown([0, 180, 0], { airspeed: 10, wind: 2, from: 0 })],
    ['one track flown three times', flown([10, 12, 14], { airspeed: 10, wind: 2, from: 90 })],
    ['headings 45° apart', flown([0, 45, 90], { airspeed: 10, wind: 1, from: 200 })],
    ['two legs', flown([0, 120], { airspeed: 10, wind: 1, from: 200 })],
    ['no motion at all', flown([0, 120, 240], { airspeed: 0, wind: 0, from: 0 })],
    [
      'a speed that is no number',
      [
        ...flown([0, 120], { airspeed: 10, wind: 1, from: 0 }),
        { trackDeg: 240, groundSpeedMps: Number.NaN },
      ],
    ],
  ])('refuses %s', (_, legs) => {
    expect(() => airspeedAndWind(legs)).toThrow(OutOfRangeError)
  })
})

describe('airspeedOf120DegreeSpeeds', () => {
  // Synthetic legs, TAS 11, wind 4; regression value. The printed speeds have four decimals, so the
  // exact ones are flown here.
  it('gives the airspeed and the wind of the specification', () => {
    const { headings, gs } = checkValue('gps-120').inputs as unknown as Record<string, number[]>
    const from = [...Array(3600).keys()]
      .map((i) => i / 10)
      .find((deg) =>
        flown(headings!, { airspeed: 11, wind: 4, from: deg }).every(
          (leg, i) => Math.abs(leg.groundSpeedMps - gs![i]!) < 1e-4,
        ),
      )
    const speeds = flown(headings!, { airspeed: 11, wind: 4, from: from! }).map(
      (leg) => leg.groundSpeedMps,
    ) as [number, number, number]
    const { trueAirspeedMps, windMps } = airspeedOf120DegreeSpeeds(speeds)
    expectRow(checkValue('gps-120'), [trueAirspeedMps, windMps])
  })

  it('agrees with the vectors, in knots as in metres per second', () => {
    const legs = flown([20, 140, 260], { airspeed: 12, wind: 5, from: 77 })
    const speeds = legs.map((leg) => leg.groundSpeedMps / MPS_PER_KNOT)
    const { trueAirspeedMps } = airspeedOf120DegreeSpeeds(speeds as [number, number, number])
    expect(trueAirspeedMps * MPS_PER_KNOT).toBeCloseTo(airspeedAndWind(legs).trueAirspeedMps, 9)
  })

  it('takes the larger of two possible speeds for the airspeed', () => {
    const speeds = flown([0, 120, 240], { airspeed: 5, wind: 12, from: 10 }).map(
      (leg) => leg.groundSpeedMps,
    )
    const { trueAirspeedMps, windMps } = airspeedOf120DegreeSpeeds(
      speeds as [number, number, number],
    )
    expect([trueAirspeedMps, windMps].map((v) => Number(v.toFixed(9)))).toEqual([12, 5])
  })

  it.each([[[10, 0.1, 0.1]], [[10, Number.NaN, 10]]])(
    'refuses speeds that no such flight has: %o',
    (speeds) => {
      expect(() => airspeedOf120DegreeSpeeds(speeds as [number, number, number])).toThrow(
        OutOfRangeError,
      )
    },
  )
})
