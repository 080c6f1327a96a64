import { describe, expect, it } from 'vitest'

import { OutOfRangeError } from '../../../src/core/errors.ts'
import { clearanceVerdict, tipClearance } from '../../../src/core/safety/tip-clearance.ts'
import type { TipClearanceQuestion } from '../../../src/core/safety/tip-clearance-inputs.ts'

/** The worked example of METHOD.md, section in the units of the request. */
const WORKED: TipClearanceQuestion = {
  thrustN: 700,
  thrustLineAboveMountsMm: 100,
  mounts: [80, 80, -80, -80].map((heightMm) => ({ heightMm, stiffnessNPerMm: 100 })),
  propellerDiameterCm: 130,
}
const TURNING = { propellerInertiaKgM2: 0.05, propellerRpm: 2800, yawRateDegPerS: 70 }

describe('a tip clearance from the geometry of the mounts', () => {
  it('is that of the worked example', () => {
    const answer = tipClearance({ ...WORKED, bladeFlexMm: 5 })
    // 22.26 mm: computed by the team from the stated formula, as printed. 1.5 × 22.2578 + 5 + 10.
    expect(answer.topMovementMm.value).toBeCloseTo(22.26, 2)
    expect(answer.requiredClearanceMm.value).toBeCloseTo(48.387, 3)
    // By hand: T·h/R = 700 N × 100 mm / 650 mm.
    expect(answer.handPullN).toBeCloseTo(107.69, 2)
    expect(answer.comparison).toBeNull()
  })

  it('knows its uncertainty: the parts make the whole, and soft rubber leans the interval upwards', () => {
    const { requiredClearanceMm: required, budget } = tipClearance({ ...WORKED, bladeFlexMm: 5 })
    expect(budget.reduce((sum, line) => sum + line.share, 0)).toBeCloseTo(1, 12)
    expect(Math.hypot(...budget.map((line) => line.standardUncertainty))).toBeCloseTo(
      required.standardUncertainty,
      9,
    )
    expect(budget[0]!.source).toBe('stiffness of the rubber')
    // By hand, of that line: 1.5 × 22.2578 mm × (1/0.8 − 1/1.2)/2 = 6.956 mm.
    expect(budget[0]!.standardUncertainty).toBeCloseTo(6.956, 3)
    const [low, high] = required.interval95
    expect(high - required.value).toBeGreaterThan(required.value - low)
  })

  it('gives the same answer each time', () => {
    expect(tipClearance(WORKED)).toEqual(tipClearance(WORKED))
  })

  it('needs more clearance for turning, and a stronger pull to try it', () => {
    const straight = tipClearance(WORKED)
    const turning = tipClearance({ ...WORKED, ...TURNING })
    expect(straight.gyroscopicMovementMm).toBe(0)
    // By hand: 0.05 × 2π·2800/60 × 70° = 17.911 N m over 2560 N m, at 750 mm: 5.2475 mm.
    expect(turning.gyroscopicMovementMm).toBeCloseTo(5.2475, 3)
    expect(turning.topMovementMm.value - straight.topMovementMm.value).toBeCloseTo(5.2475, 3)
    expect(turning.handPullN).toBeCloseTo(straight.handPullN + 17.911 / 0.65, 2)
  })

  it('looks at the lower tip where the thrust line lies below the mounts', () => {
    const above = tipClearance(WORKED)
    const below = tipClearance({ ...WORKED, thrustLineAboveMountsMm: -100 })
    expect(below.bottomMovementMm.value).toBeCloseTo(above.topMovementMm.value, 9)
    expect(below.requiredClearanceMm.value).toBeCloseTo(above.requiredClearanceMm.value, 9)
    expect(below.handPullN).toBeCloseTo(above.handPullN, 9)
  })

  it.each([
    [20, 'tooSmall'],
    [43, 'tooSmall'],
    [50, 'notResolved'],
    [120, 'larger'],
  ])('calls a measured %d mm %s', (staticClearanceMm, verdict) => {
    const { comparison, requiredClearanceMm } = tipClearance({ ...WORKED, staticClearanceMm })
    expect(comparison!.verdict).toBe(verdict)
    expect(comparison!.marginMm.value).toBeCloseTo(staticClearanceMm - requiredClearanceMm.value, 9)
  })

  it('never takes a margin for enough that is no number', () => {
    const nothing = Number.NaN
    const margin = { value: nothing, standardUncertainty: 1, interval95: [1, 2] as const }
    expect(clearanceVerdict(margin)).toBe('tooSmall')
  })

  it.each<[what: string, change: Partial<TipClearanceQuestion>]>([
    ['a thrust that is no number', { thrustN: Number.NaN }],
    ['mounts of one height', { mounts: [{ stiffnessNPerMm: 100, heightMm: 80 }] }],
    [
      'rubber so soft that it hangs',
      { mounts: WORKED.mounts.map((m) => ({ ...m, stiffnessNPerMm: 1 })) },
    ],
  ])('is refused for %s', (_, change) => {
    expect(() => tipClearance({ ...WORKED, ...change })).toThrow(OutOfRangeError)
  })
})
