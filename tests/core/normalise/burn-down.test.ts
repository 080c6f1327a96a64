import fc from 'fast-check'
import { describe, expect, it } from 'vitest'

import { OutOfRangeError } from '../../../src/core/errors.ts'
import { burnDown, fuelBurnedL } from '../../../src/core/normalise/model/burn-down.ts'
import { fuelFlowAt, REFERENCE } from '../../../src/core/normalise/predict.ts'

const KG_PER_L = 0.745 // the default gasoline of the method, EN 228 allows 0.720 to 0.775

/** The tank burned in small steps at the midpoint, by the prediction of the flow itself. */
function inSteps(allUpMassKg: number, fuelL: number, steps: number) {
  const flow = (massKg: number) =>
    fuelFlowAt(
      { fuelFlowLPerH: 3.2, propellerDiameterCm: 130 },
      { ...REFERENCE, allUpMassKg: massKg },
    )
  let enduranceH = 0
  let rangeKm = 0
  for (let i = 0; i < steps; i++) {
    const massKg = allUpMassKg - (KG_PER_L * fuelL * (i + 0.5)) / steps
    const hours = fuelL / steps / flow(massKg)
    enduranceH += hours
    rangeKm += hours * 3.6 * 10.5 * Math.sqrt(massKg / 120) // level speed of the wing at fixed trim
  }
  return { enduranceH, rangeKm, flowAtStart: flow(allUpMassKg) }
}

const flight = fc.record({
  allUpMassKg: fc.double({ min: 70, max: 300, noNaN: true }),
  fuelFlowLPerH: fc.double({ min: 1, max: 12, noNaN: true }),
  airspeedMps: fc.double({ min: 7, max: 20, noNaN: true }),
})

describe('burnDown', () => {
  it.each([
    [120, 12],
    [95, 9.5],
    [240, 24],
  ])('at %i kg on %d L is the sum of small steps', (allUpMassKg, fuelL) => {
    // Midpoint sums of 4000 steps are good to the square of the step: better than 1e-9 here.
    const { enduranceH, rangeKm, flowAtStart } = inSteps(allUpMassKg, fuelL, 4000)
    const airspeedMps = 10.5 * Math.sqrt(allUpMassKg / 120)
    const found = burnDown({ allUpMassKg, fuelFlowLPerH: flowAtStart, airspeedMps }, fuelL)
    expect(found.enduranceH / enduranceH).toBeCloseTo(1, 8)
    expect(found.rangeKm / rangeKm).toBeCloseTo(1, 8)
  })

  it('lasts longer than a constant flow by ¾ of the fuel’s share of the mass', () => {
    const start = { allUpMassKg: 120, fuelFlowLPerH: 3, airspeedMps: 10.5 }
    const longer = (fuelL: number) => burnDown(start, fuelL).enduranceH / (fuelL / 3) - 1
    // First order ¾·ρL/m₀; the next term, 5/8 of the share squared, is 0.35 % at 12 L.
    expect(longer(12)).toBeCloseTo((0.75 * 12 * KG_PER_L) / 120, 2)
    expect(longer(0.12)).toBeCloseTo((0.75 * 0.12 * KG_PER_L) / 120, 6)
    expect(longer(12)).toBeGreaterThan(0.055)
  })

  it('is nothing on no fuel', () => {
    const start = { allUpMassKg: 120, fuelFlowLPerH: 3, airspeedMps: 10.5 }
    expect(burnDown(start, 0)).toEqual({ enduranceH: 0, rangeKm: 0 })
  })

  it('gives back the fuel for the time it lasts', () => {
    fc.assert(
      fc.property(flight, fc.double({ min: 0.01, max: 30, noNaN: true }), (start, fuelL) => {
        const { enduranceH } = burnDown(start, fuelL)
        expect(fuelBurnedL(start, enduranceH) / fuelL).toBeCloseTo(1, 9)
      }),
    )
  })

  it('adds up over two parts of the tank', () => {
    fc.assert(
      fc.property(flight, (start) => {
        const first = burnDown(start, 5)
        const ratio = 1 - (5 * KG_PER_L) / start.allUpMassKg
        const rest = burnDown(
          {
            allUpMassKg: start.allUpMassKg * ratio,
            fuelFlowLPerH: start.fuelFlowLPerH * ratio ** 1.5,
            airspeedMps: start.airspeedMps * ratio ** 0.5,
          },
          7,
        )
        const whole = burnDown(start, 12)
        expect((first.enduranceH + rest.enduranceH) / whole.enduranceH).toBeCloseTo(1, 10)
        expect((first.rangeKm + rest.rangeKm) / whole.rangeKm).toBeCloseTo(1, 10)
      }),
    )
  })

  it.each([Number.NaN, -1, 100])('refuses %d L at 120 kg', (fuelL) => {
    const start = { allUpMassKg: 120, fuelFlowLPerH: 3, airspeedMps: 10.5 }
    expect(() => burnDown(start, fuelL)).toThrow(OutOfRangeError)
  })
})
