import { afterAll, beforeAll, describe, expect, it } from 'vitest'

import type { Problem } from '../../../src/contract/problems.ts'
import type {
  ComparedPair,
  ComparedSetup,
  Comparison,
  Equivalents,
} from '../../../src/features/comparisons/schema.ts'
import { type Field, openField, session } from './evenings.ts'

let field: Field
let quick: string
let slow: string
let lonely: string
let unflown: string
let onceBeside: string

/** Three pilots climb 100 m with the quick one in about 45 s and with the slow one in about 50 s. */
beforeAll(async () => {
  field = await openField()
  ;[quick, slow, lonely, unflown, onceBeside] = await Promise.all([
    field.setup(),
    field.setup(),
    field.setup(),
    field.setup(),
    field.setup(),
  ])
  await field.fly(0, [
    { setupId: quick, climbsS: [45, 45.8, 44.6], burnsS: [600, 606] },
    { setupId: slow, climbsS: [50.4, 49.5, 50.1], burnsS: [480, 485] },
  ])
  await field.fly(1, [
    { setupId: quick, climbsS: [46.2, 45.5], burnsS: [590, 597] },
    { setupId: slow, climbsS: [51, 50.2], burnsS: [478, 474] },
  ])
  await field.fly(2, [
    { setupId: quick, climbsS: [44.1, 44.9] },
    { setupId: slow, climbsS: [49, 49.6] },
    { setupId: onceBeside, climbsS: [47, 47.4] },
  ])
  await field.fly(0, [
    { setupId: quick, climbsS: [45.1, 45.3] },
    { setupId: slow, climbsS: [50, 49.8] },
  ])
  await field.fly(1, [{ setupId: lonely, climbsS: [40, 40.5] }])
  await field.fly(1, [{ setupId: lonely, climbsS: [40.2, 40.1] }])
  await field.app.fits.refresh()
})

afterAll(() => field.close())

/** Every figure is there: for answers that are not refused. */
type Answer = Comparison & {
  setups: { [K in keyof ComparedSetup]-?: NonNullable<ComparedSetup[K]> }[]
  pairs: (Required<ComparedPair> & { equivalents: Required<Equivalents> })[]
}

const compare = (query: string) => field.get<Answer>(`/v1/comparisons?${query}`)
const refused = (query: string) => field.get<Problem>(`/v1/comparisons?${query}`)
const pairOf = async (metric: string, a: string, b: string) =>
  (await compare(`metric=${metric}&setups=${a},${b}`)).body.pairs[0]!

describe('GET /v1/comparisons', () => {
  it('says which of two climbs faster, by how much, and how sure that is', async () => {
    const { status, body } = await compare(`metric=climbRate&setups=${quick},${slow}`)
    expect(status).toBe(200)
    const pair = body.pairs[0]!
    expect(pair).toMatchObject({ a: quick, b: slow, evidence: 'direct', verdict: 'aBetter' })
    // Every pilot saw the ratio of the climb times, about 50/45; at the reference state it stays so.
    expect(pair.differencePercent).toBeGreaterThan(9)
    expect(pair.differencePercent).toBeLessThan(13)
    expect(pair.interval95Percent[0]).toBeGreaterThan(0)
    expect(pair.interval95Percent[0]).toBeLessThan(pair.differencePercent)
    expect(pair.interval95Percent[1]).toBeGreaterThan(pair.differencePercent)
    expect(pair.probabilityABetter).toBeGreaterThan(0.975)
    expect(pair.sentence).toContain('climbs faster than')
  })

  it('gives each its value at the conditions with interval, evidence and rank', async () => {
    const { body } = await compare(`metric=climbRate&setups=${quick},${slow}`)
    const first = body.setups[0]!
    // 100 m in 45 s at the reference mass, wing and (nearly) air.
    expect(first.value).toBeGreaterThan(100 / 47)
    expect(first.value).toBeLessThan(100 / 43)
    expect(first.interval95[0]).toBeLessThan(first.value)
    expect(first.interval95[1]).toBeGreaterThan(first.value)
    expect(first.evidence).toMatchObject({
      sessions: 4,
      pilots: 3,
      runs: 9,
      independentSessions: 4,
    })
    expect(first.rank).toMatchObject({ median: 1 })
    expect(first.rank.probabilityBest).toBeGreaterThan(0.9)
  })

  it('does not mistake a better climb for as much more thrust or power', async () => {
    const { equivalents, differencePercent } = await pairOf('climbRate', quick, slow)
    const thrust = await pairOf('climbThrust', quick, slow)
    expect(equivalents.climbRatePercent).toBeCloseTo(differencePercent, 9)
    expect(equivalents.climbThrustPercent).toBeCloseTo(thrust.differencePercent, 9)
    expect(thrust.differencePercent).toBeLessThan(0.8 * differencePercent)
    expect(equivalents.inducedPowerPercent).not.toBeCloseTo(differencePercent, 0)
  })

  it('does not mistake longer burning for as much less fuel', async () => {
    const pair = await pairOf('fuelFlow', quick, slow)
    expect(pair.verdict).toBe('aBetter')
    // 600 s against 480 s: a quarter longer is a fifth less.
    expect(pair.equivalents.endurancePercent).toBeGreaterThan(23)
    expect(pair.equivalents.endurancePercent).toBeLessThan(27)
    expect(pair.differencePercent).toBeGreaterThan(-21.5)
    expect(pair.differencePercent).toBeLessThan(-18.5)
    expect(1 + pair.equivalents.endurancePercent / 100).toBeCloseTo(
      1 / (1 + pair.differencePercent / 100),
      12,
    )
  })

  it('turns round when the two are named the other way round', async () => {
    const there = await pairOf('climbRate', quick, slow)
    const back = await pairOf('climbRate', slow, quick)
    expect(back.verdict).toBe('bBetter')
    expect(1 + back.differencePercent / 100).toBeCloseTo(
      1 / (1 + there.differencePercent / 100),
      12,
    )
    expect(back.degreesOfFreedom).toBeCloseTo(there.degreesOfFreedom, 6)
    expect(back.probabilityABetter).toBeCloseTo(1 - there.probabilityABetter, 12)
  })

  it('gives no number for setups never flown in one session nor linked', async () => {
    const pair = await pairOf('climbRate', lonely, slow)
    expect(pair).toMatchObject({
      verdict: 'refused',
      evidence: 'betweenSessions',
      reasonCode: 'notConnected',
    })
    expect(pair).not.toHaveProperty('differencePercent')
    expect(pair).not.toHaveProperty('interval95Percent')
    expect(pair).not.toHaveProperty('probabilityABetter')
  })

  it('gives no number where one session is all there is', async () => {
    const { body } = await compare(`metric=climbRate&setups=${onceBeside},${slow}`)
    expect(body.pairs[0]).toMatchObject({ verdict: 'refused', reasonCode: 'oneSession' })
    expect(body.setups[0]).toMatchObject({ value: null, rank: null })
    expect(body.setups[0]!.refused.reasonCode).toBe('oneSession')
  })

  it('gives no number for a setup nobody has flown', async () => {
    const { body } = await compare(`metric=climbRate&setups=${unflown},${slow}`)
    expect(body.pairs[0]).toMatchObject({
      verdict: 'refused',
      evidence: 'none',
      reasonCode: 'noEvidence',
    })
    expect(body.setups[0]!.evidence).toMatchObject({ sessions: 0, runs: 0 })
  })

  it('gives no climb ratio where neither could climb', async () => {
    const query = `metric=climbRate&setups=${quick},${slow}&allUpMassKg=300`
    const { body } = await compare(query)
    expect(body.pairs[0]).toMatchObject({ verdict: 'refused', reasonCode: 'doesNotClimb' })
  })

  it('predicts less climb for more mass, more height and more heat', async () => {
    const climb = async (conditions: string) =>
      (await compare(`metric=climbRate&setups=${quick},${slow}&${conditions}`)).body.setups[0]!
        .value
    const here = await climb('allUpMassKg=110')
    expect(await climb('allUpMassKg=130')).toBeLessThan(here)
    expect(await climb('allUpMassKg=110&elevationM=1500')).toBeLessThan(here)
    expect(await climb('allUpMassKg=110&temperatureC=35')).toBeLessThan(here)
  })

  it('takes a mass class for the mass that stands for it', async () => {
    const byClass = await compare(`metric=climbRate&setups=${quick},${slow}&massClass=120to140`)
    const byMass = await compare(`metric=climbRate&setups=${quick},${slow}&allUpMassKg=130`)
    expect(byClass.body.setups).toEqual(byMass.body.setups)
  })

  it('flies the wing of the catalogue that is asked for', async () => {
    const { rows } = await field.db.pool.query(
      `INSERT INTO component (kind, maker, model, flat_area_m2, glide_ratio, trim_speed_mps, trim_at_all_up_mass_kg)
       VALUES ('wing', 'Invented', 'Poor glider', 24, 6, 10.5, 120) RETURNING id`,
    )
    const { body } = await compare(`metric=climbRate&setups=${quick},${slow}&wingId=${rows[0].id}`)
    const reference = await compare(`metric=climbRate&setups=${quick},${slow}`)
    expect(body.conditions.wing).toMatchObject({ id: rows[0].id, glideRatio: 6 * 0.85 })
    expect(body.setups[0]!.value).toBeLessThan(reference.body.setups[0]!.value)
  })

  it('carries cautions and says what it took for granted', async () => {
    const { body } = await compare(`metric=fuelFlow&setups=${quick},${slow}`)
    expect(body.cautions.join(' ')).toMatch(/engine out/)
    expect(body.cautions.join(' ')).toMatch(/propeller clearance/)
    expect(body.conditions.assumed.join(' ')).toMatch(/120 kg/)
  })

  it.each([
    ['one setup', () => `metric=climbRate&setups=${quick}`, 400, '/setups'],
    ['the same setup twice', () => `metric=climbRate&setups=${quick},${quick}`, 400, '/setups'],
    ['no metric', () => `setups=${quick},${slow}`, 400, '/metric'],
    ['an unknown metric', () => `metric=power&setups=${quick},${slow}`, 400, '/metric'],
    [
      'mass and class',
      () => `metric=climbRate&setups=${quick},${slow}&allUpMassKg=100&massClass=tandem`,
      400,
      '/massClass',
    ],
    [
      'a mass no one flies',
      () => `metric=climbRate&setups=${quick},${slow}&allUpMassKg=5`,
      400,
      '/allUpMassKg',
    ],
    [
      'an unknown setup',
      () => `metric=climbRate&setups=${quick},00000000-0000-4000-8000-000000000000`,
      422,
      '/setups',
    ],
    [
      'an unknown wing',
      () => `metric=climbRate&setups=${quick},${slow}&wingId=${quick}`,
      422,
      '/wingId',
    ],
  ])('refuses %s and names the field', async (_what, query, status, pointer) => {
    const answer = await refused(query())
    expect(answer.status).toBe(status)
    expect(answer.body.errors?.map((error) => error.pointer)).toContain(pointer)
  })

  it('says 404 for a fit that does not exist or is of the other quantity', async () => {
    const { body } = await compare(`metric=fuelFlow&setups=${quick},${slow}`)
    expect(
      (await compare(`metric=climbRate&setups=${quick},${slow}&fitId=${body.fitId}`)).status,
    ).toBe(404)
    const nowhere = `fit_${'0'.repeat(32)}`
    expect(
      (await compare(`metric=climbRate&setups=${quick},${slow}&fitId=${nowhere}`)).status,
    ).toBe(404)
  })
})

describe('evidence that changes', () => {
  it('shows a new submission by itself, and the old answer under its fit', async () => {
    const query = `metric=climbRate&setups=${quick},${slow}`
    const before = await compare(query)
    const id = await field.fly(2, [
      { setupId: quick, climbsS: [45] },
      { setupId: slow, climbsS: [50] },
    ])
    const deadline = Date.now() + 20_000 // how soon it shows is measured in the benchmark, not here
    let after = await compare(query)
    while (after.body.setups[0]!.evidence.sessions !== 5 && Date.now() < deadline) {
      await new Promise((resolve) => setTimeout(resolve, 50))
      after = await compare(query)
    }
    expect(after.body.setups[0]!.evidence.sessions).toBe(5)
    expect(after.body.fitId).not.toBe(before.body.fitId)
    expect((await compare(`${query}&fitId=${before.body.fitId}`)).text).toBe(before.text)

    // Withdrawn, the evidence is what it was, and so is the fit, down to its name.
    await field.request
      .delete(`/v1/submissions/${id}`)
      .set(field.pilots[2]!.authorization)
      .expect(204)
    await field.app.fits.refresh()
    expect((await compare(query)).text).toBe(before.text)
  })

  it('counts a revision in place of what it corrects', async () => {
    const query = `metric=climbRate&setups=${quick},${slow}`
    const flown = [
      { setupId: quick, climbsS: [90] },
      { setupId: slow, climbsS: [50] },
    ]
    const id = await field.fly(2, flown)
    await field.app.fits.refresh()
    const wrong = await compare(query)
    await field.request
      .post(`/v1/submissions/${id}/revisions`)
      .set(field.pilots[2]!.authorization)
      .send(session([{ setupId: quick, climbsS: [45] }, flown[1]!]))
      .expect(201)
    await field.app.fits.refresh()
    const right = await compare(query)
    expect(right.body.setups[0]!.evidence).toEqual(wrong.body.setups[0]!.evidence)
    expect(right.body.setups[0]!.value).toBeGreaterThan(wrong.body.setups[0]!.value)
  })

  it('counts runs of a merged setup for the one that remains, under either id', async () => {
    const twin = await field.setup()
    await field.fly(0, [
      { setupId: twin, climbsS: [45.2] },
      { setupId: slow, climbsS: [50.3] },
    ])
    await field.app.fits.refresh()
    const apart = await compare(`metric=climbRate&setups=${quick},${slow}`)
    await field.db.pool.query('UPDATE setup SET merged_into_id = $1 WHERE id = $2', [quick, twin])
    await field.app.fits.refresh()
    const together = await compare(`metric=climbRate&setups=${twin},${slow}`)
    expect(together.body.setups[0]!.setupId).toBe(quick)
    expect(together.body.setups[0]!.evidence.sessions).toBe(
      apart.body.setups[0]!.evidence.sessions + 1,
    )
  })
})

describe('GET /v1/comparisons.svg', () => {
  const draw = (query: string) =>
    field.request.get(`/v1/comparisons.svg?metric=climbRate&setups=${quick},${slow}${query}`)

  it('draws the same answer as a picture that needs nothing else', async () => {
    const answer = await draw('').buffer(true).expect(200)
    const svg = String(answer.body)
    expect(answer.headers['content-type']).toContain('image/svg+xml')
    expect(svg).toMatch(/^<svg xmlns="http:\/\/www.w3.org\/2000\/svg" width="720"/)
    const { body } = await compare(`metric=climbRate&setups=${quick},${slow}`)
    for (const { value } of body.setups) expect(svg).toContain(`>${value.toFixed(2)}</text>`)
    expect(svg).not.toMatch(/<script|<style|href=/)
  })

  it.each(['differences', 'ranks'])('draws %s', async (chart) => {
    const answer = await draw(`&chart=${chart}&widthPx=400`).buffer(true).expect(200)
    expect(String(answer.body)).toContain('width="400"')
  })

  it('refuses what the answer in numbers refuses', async () => {
    const answer = await draw('&widthPx=90000').expect(400)
    expect(answer.body.errors[0].pointer).toBe('/widthPx')
  })
})
