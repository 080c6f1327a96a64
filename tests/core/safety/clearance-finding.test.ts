import fc from 'fast-check'
import { describe, expect, it } from 'vitest'

import {
  type ClearanceReading,
  clearanceFinding,
  measuredMovement,
} from '../../../src/core/safety/clearance-finding.ts'

const read = (
  staticClearanceMm: number,
  loadedClearanceMm?: number,
  contactSeen = false,
): ClearanceReading => ({ staticClearanceMm, loadedClearanceMm, contactSeen })

// Advised under load: 10 mm and half of the movement (section i of the specification, rearranged).
describe('what a measured clearance says', () => {
  it.each<[what: string, reading: ClearanceReading, state: string | undefined, field?: string]>([
    ['a touch, however wide the gap', read(90, 80, true), 'doNotFly', 'contactSeen'],
    ['no gap under load', read(20, 0), 'doNotFly', 'loadedClearanceMm'],
    ['no gap at rest', read(0), 'doNotFly', 'staticClearanceMm'],
    ['28 mm of which 12 remain: 18 advised', read(28, 12), 'advisory', 'loadedClearanceMm'],
    ['40 mm of which 19.9 remain: 20.05 advised', read(40, 19.9), 'advisory', 'loadedClearanceMm'],
    ['40 mm of which 20 remain: 20 advised', read(40, 20), undefined],
    ['9 mm at rest, nothing more known', read(9), 'advisory', 'staticClearanceMm'],
    ['10 mm at rest, nothing more known', read(10), undefined],
    ['a tip that moved away', read(30, 32), undefined],
  ])('%s', (_, reading, state, field) => {
    const finding = clearanceFinding(reading)
    expect(finding?.state).toBe(state)
    expect(finding?.field).toBe(field)
  })

  it('tells the figures it rests on', () => {
    expect(clearanceFinding(read(28, 12))!.reason).toBe(
      'Under load the propeller comes within 12 mm of its frame, having moved by 16 mm; 18 mm are advised: 10 mm and 0.5 times the movement.',
    )
  })

  it('never gets better for a smaller gap under load', () => {
    const gap = fc.double({ min: 0, max: 200, noNaN: true })
    const order = (reading: ClearanceReading) =>
      ['doNotFly', 'advisory', undefined].indexOf(clearanceFinding(reading)?.state)
    fc.assert(
      fc.property(gap, gap, gap, (rest, a, b) => {
        const [less, more] = [Math.min(a, b), Math.max(a, b)]
        expect(order(read(rest, less))).toBeLessThanOrEqual(order(read(rest, more)))
      }),
    )
  })

  it('advises at least 10 mm under load, more the more the tip moves', () => {
    expect(measuredMovement(30, 35)).toEqual({ movementMm: -5, advisedLoadedClearanceMm: 10 })
    expect(measuredMovement(50, 20)).toEqual({ movementMm: 30, advisedLoadedClearanceMm: 25 })
  })

  it('never calls anything safe', () => {
    for (const reading of [read(28, 12), read(9), read(0), read(9, 0), read(9, 8, true)]) {
      expect(clearanceFinding(reading)!.reason).not.toMatch(/safe/i)
    }
  })
})
