import { afterAll, beforeAll, describe, expect, it } from 'vitest'

import { startTestApp, type TestApp } from '../../support/app.ts'

let service: TestApp

beforeAll(async () => {
  service = await startTestApp()
})

afterAll(async () => service?.close())

/** The worked example of METHOD.md, section i. */
const WORKED = {
  thrustN: 700,
  thrustLineAboveMountsMm: 100,
  mounts: [80, 80, -80, -80].map((heightMm) => ({ stiffnessNPerMm: 100, heightMm })),
  propellerDiameterCm: 130,
  bladeFlexMm: 5,
}
const TURNING = { propellerInertiaKgM2: 0.05, propellerRpm: 2800, yawRateDegPerS: 70 }

const ask = (body: object) => service.request.post('/v1/safety/tip-clearance').send(body)

describe('POST /v1/safety/tip-clearance', () => {
  it('gives movements, requirement and a pull to try it with, and what it assumed', async () => {
    const { body } = await ask(WORKED).expect(200)
    // 22.26 mm: computed by the team from the stated formula; 1.5 × 22.258 + 5 + 10; T·h/R.
    expect(body.topMovementMm.value).toBeCloseTo(22.26, 2)
    expect(body.requiredClearanceMm.value).toBeCloseTo(48.39, 2)
    expect(body.handPullN).toBeCloseTo(107.7, 1)
    const [low, high] = body.requiredClearanceMm.interval95
    expect(low).toBeLessThan(48.39)
    expect(high).toBeGreaterThan(48.39)
    expect(body.comparison).toBeNull()
    expect(body.assumptions.join(' ')).toMatch(/gyroscopic moment is left out/)
    expect(body.assumptions.join(' ')).toMatch(/no standard/)
    expect(body.cautions.join(' ')).toMatch(/108 N on a hand scale/)
  })

  it('counts a turn where all of it is given', async () => {
    const { body } = await ask({ ...WORKED, ...TURNING }).expect(200)
    expect(body.gyroscopicMovementMm).toBeCloseTo(5.25, 2)
    expect(body.assumptions.join(' ')).not.toMatch(/gyroscopic/)
  })

  it.each([
    [30, 'tooSmall', /Too little/],
    [55, 'notResolved', /may be too little/],
    [130, 'larger', /no clearance to fly/],
  ])('holds a measured %d mm against it', async (staticClearanceMm, verdict, sentence) => {
    const { body } = await ask({ ...WORKED, staticClearanceMm }).expect(200)
    expect(body.comparison).toMatchObject({ staticClearanceMm, verdict })
    expect(body.comparison.sentence).toMatch(sentence)
  })

  it('says first what must not be done, never that something is safe, and defers to others', async () => {
    const small = (await ask({ ...WORKED, staticClearanceMm: 30 }).expect(200)).body
    expect(small.cautions[0]).toMatch(/^Do not run/)
    for (const staticClearanceMm of [0, 30, 55, 130, 400]) {
      const { text, body } = await ask({ ...WORKED, staticClearanceMm }).expect(200)
      expect(text).not.toMatch(/safe/i)
      expect(body.cautions.at(-1)).toMatch(/Local rules and codes/)
    }
  })

  it('warns of a tilt that the model is not for', async () => {
    const soft = WORKED.mounts.map((mount) => ({ ...mount, stiffnessNPerMm: 25 }))
    const { body } = await ask({ ...WORKED, mounts: soft }).expect(200)
    expect(body.cautions.join(' ')).toMatch(/more than this model is for/)
  })

  it.each<[what: string, change: object, pointers: string[]]>([
    ['no thrust', { thrustN: undefined }, ['/thrustN']],
    ['thrust in kilogram-force', { thrustN: 5 }, ['/thrustN']],
    ['a thrust line of metres', { thrustLineAboveMountsMm: 4000 }, ['/thrustLineAboveMountsMm']],
    ['one mount', { mounts: WORKED.mounts.slice(1, 2) }, ['/mounts']],
    ['mounts of one height', { mounts: WORKED.mounts.slice(0, 2) }, ['/mounts']],
    [
      'stiffness in N/m',
      { mounts: [...WORKED.mounts, { stiffnessNPerMm: 100_000, heightMm: 0 }] },
      ['/mounts/4/stiffnessNPerMm'],
    ],
    [
      'a mount without height',
      { mounts: [{ stiffnessNPerMm: 9 }, WORKED.mounts[0]] },
      ['/mounts/0/heightMm'],
    ],
    ['a diameter in metres', { propellerDiameterCm: 1.3 }, ['/propellerDiameterCm']],
    ['blades of rubber', { bladeFlexMm: 101 }, ['/bladeFlexMm']],
    ['a negative clearance', { staticClearanceMm: -1 }, ['/staticClearanceMm']],
    ['half a turn', { yawRateDegPerS: 70 }, ['/propellerInertiaKgM2', '/propellerRpm']],
    ['an engine speed for the propeller', { ...TURNING, propellerRpm: 8500 }, ['/propellerRpm']],
    ['an inertia in kg·cm²', { ...TURNING, propellerInertiaKgM2: 500 }, ['/propellerInertiaKgM2']],
    ['a turn of no paraglider', { ...TURNING, yawRateDegPerS: 400 }, ['/yawRateDegPerS']],
    ['an unknown field', { thrustKgf: 70 }, ['']],
  ])('is refused with 400 for %s', async (_, change, pointers) => {
    const answer = await ask({ ...WORKED, ...change })
    expect(answer.status).toBe(400)
    expect(answer.body.errors.map((e: { pointer: string }) => e.pointer)).toEqual(pointers)
  })

  it('says which unit a value looks like', async () => {
    const { body } = await ask({ ...WORKED, propellerDiameterCm: 1.3 })
    expect(body.errors[0].detail).toMatch(/read as m it is 130 cm/)
  })

  it('is refused with 422 where the rubber would let the propeller go', async () => {
    const limp = WORKED.mounts.map(({ heightMm }) => ({
      heightMm: heightMm / 40,
      stiffnessNPerMm: 1,
    }))
    const answer = await ask({ ...WORKED, mounts: limp })
    expect(answer.status).toBe(422)
    expect(answer.body.errors[0].pointer).toBe('/mounts')
  })
})
