import { afterAll, beforeAll, describe, expect, it } from 'vitest'

import { Pcg32 } from '../../../src/core/random/pcg32.ts'
import type { Comparison, Ranking } from '../../../src/features/comparisons/schema.ts'
import type { Prediction } from '../../../src/features/predictions/schema.ts'
import { type Field, openField, session } from './evenings.ts'

let field: Field
let a: string
let b: string
let c: string

const random = new Pcg32(12)
const climbs = (seconds: number, spread = 0.02) =>
  Array.from({ length: 3 }, () => Number((seconds * (1 + spread * random.normal())).toFixed(1)))

/** One evening of a and b with that pilot and all-up mass. */
async function evening(
  pilot: number,
  [secondsA, secondsB]: readonly [number, number],
  { interest = 'none', allUpMassKg = 120 } = {},
): Promise<void> {
  const body = session([
    { setupId: a, climbsS: climbs(secondsA) },
    { setupId: b, climbsS: climbs(secondsB) },
  ]) as { entries: { allUpMassKg: number }[] }
  const entries = body.entries.map((entry) => ({ ...entry, allUpMassKg }))
  const sent = { ...body, entries, interest, pilot: { massKg: allUpMassKg - 38 } }
  await field.request
    .post('/v1/submissions')
    .set(field.pilots[pilot]!.authorization)
    .send(sent)
    .expect(201)
}

/** One price for each part of a setup [EUR]. */
const price = (setup: string, amount: number) =>
  field.db.pool.query(
    `UPDATE component SET price_amount = $2, price_currency = 'EUR', price_as_of = '2026-01-20'
      WHERE id IN (SELECT unnest(ARRAY[powerplant_id, propeller_id, frame_id]) FROM setup WHERE id = $1)`,
    [setup, amount],
  )

const compare = async (query = '') =>
  (await field.get<Comparison>(`/v1/comparisons?metric=climbRate&setups=${a},${b}${query}`)).body

beforeAll(async () => {
  field = await openField(4)
  ;[a, b, c] = [await field.setup(), await field.setup(), await field.setup()]
  // Three pilots find them nearly alike; the dealer finds a far better, often.
  for (let i = 0; i < 6; i++) await evening(i % 3, [48.5, 50])
  for (let i = 0; i < 10; i++) await evening(3, [41, 50], { interest: 'dealer' })
  await field.app.fits.refresh()
})

afterAll(() => field.close())

describe('people with an interest', () => {
  it('can be left out, and the answer says what that changes', async () => {
    const all = await compare()
    const [pair] = all.pairs
    expect(pair!.verdict).toBe('aBetter')
    expect(pair!.withoutInterested!.changes).toBe(true)
    expect(pair!.sentence).toMatch('Without submissions by people with an interest')

    const rest = await compare('&excludeInterested=true')
    expect(rest.fitId).not.toBe(all.fitId)
    expect(rest.setups[0]!.evidence).toMatchObject({ sessions: 6, interestedSessions: 0 })
    expect(rest.pairs[0]!.verdict).toBe(pair!.withoutInterested!.verdict)
    expect(rest.pairs[0]!.withoutInterested).toEqual({
      verdict: rest.pairs[0]!.verdict,
      changes: false,
    })
  })

  it('can be left out of a ranking and of an answer to be had again by its fit', async () => {
    const { body } = await field.get<Ranking>(
      '/v1/rankings?metric=climbRate&excludeInterested=true',
    )
    expect(body.ranked[0]!.evidence.sessions).toBe(6)
    expect(body.withoutInterested).toMatchObject({ changes: false })
    const all = await compare()
    const again = await compare(`&excludeInterested=true&fitId=${all.fitId}`)
    expect(again.fitId).toBe(body.fitId)
  })

  it('are named by a ranking whose verdicts hang on them', async () => {
    const { body } = await field.get<Ranking>('/v1/rankings?metric=climbRate')
    expect(body.ranked[1]).toMatchObject({
      setupId: b,
      againstFirst: 'bBetter',
      withoutInterested: { position: 2, changes: true },
    })
    expect(body.withoutInterested).toEqual({ first: a, otherwise: [b], changes: true })
    expect(body.sentence).toMatch('Without submissions by people with an interest, the verdict')
  })

  it('can be left out of a prediction, which says what that changes', async () => {
    const path = `/v1/setups/${a}/predictions?glideUncertainty=0`
    const all = (await field.get<Prediction>(path)).body
    const rest = (await field.get<Prediction>(`${path}&excludeInterested=true`)).body
    const { climbRate, airspeed } = all.predictions
    expect(climbRate.withoutInterested!.value).toBe(rest.predictions.climbRate.value)
    const [low, high] = climbRate.interval95!
    const value = rest.predictions.climbRate.value!
    expect(climbRate.withoutInterested!.changes).toBe(value < low || value > high)
    expect(airspeed).not.toHaveProperty('withoutInterested')
    expect(rest.evidence.inducedPower).toMatchObject({ sessions: 6, interestedSessions: 0 })
  })

  it('are named by what a gain costs, where the gain hangs on them', async () => {
    await price(a, 900)
    await price(b, 700)
    const [pair] = (await compare()).pairs
    expect(pair!.cost!.perTenthMps!.value).toBeGreaterThan(0)
    expect(pair!.cost!.sentence).toMatch(
      /Without submissions by people with an interest this does not hold\./,
    )
    const [rest] = (await compare('&excludeInterested=true')).pairs
    expect(rest!.cost!.sentence).not.toMatch('people with an interest')
  })

  it('makes no difference where nobody has one', async () => {
    const burns = await field.get<Comparison>(`/v1/comparisons?metric=fuelFlow&setups=${a},${b}`)
    const rest = await field.get<Comparison>(
      `/v1/comparisons?metric=fuelFlow&setups=${a},${b}&excludeInterested=true`,
    )
    expect(rest.body.fitId).toBe(burns.body.fitId)
  })
})

describe('an open verdict', () => {
  it('says how many more sessions would settle it, in the sentence too', async () => {
    const { pairs } = await compare('&excludeInterested=true')
    const [pair] = pairs
    expect(pair!.verdict).toBe('notResolved')
    const many = pair!.flightsToResolve!
    expect(many).toBeGreaterThan(0)
    expect(pair!.sentence).toMatch(
      `${many === 1 ? 'one more session' : `about ${many} more sessions`} with both flown, 3 runs of each, would settle it`,
    )
  })

  it('has no such number where the verdict stands', async () => {
    const [pair] = (await compare()).pairs
    expect(pair!.flightsToResolve).toBeUndefined()
  })
})

describe('a further session', () => {
  it('is less certain than the mean', async () => {
    const [pair] = (await compare()).pairs
    const [low, high] = pair!.interval95Percent!
    const [nextLow, nextHigh] = pair!.nextSession95Percent!
    expect(nextLow).toBeLessThan(low)
    expect(nextHigh).toBeGreaterThan(high)
  })
})

describe('the mass class', () => {
  it('can be all the evidence there is, made when it is asked for and the same again', async () => {
    for (let i = 0; i < 4; i++) await evening(i, [40, 44], { allUpMassKg: 95 })
    await field.app.fits.refresh()
    const light = await compare('&massClass=under100&evidence=class')
    expect(light.setups[0]!.evidence.sessions).toBe(4)
    const all = await compare('&massClass=under100')
    expect(all.setups[0]!.evidence.sessions).toBe(20)
    expect(light.fitId).not.toBe(all.fitId)
    await field.app.fits.refresh()
    const whole = await compare('&massClass=under100&evidence=class')
    expect(whole.otherFits).toBe('made')
    expect(whole).toMatchObject({ fitId: light.fitId, setups: light.setups })
    const again = await compare('&massClass=under100&evidence=class')
    expect(again).toEqual(whole)
    const byId = await compare(`&massClass=under100&evidence=class&fitId=${light.fitId}`)
    expect(byId).toEqual(whole)
  })

  it('follows from the mass where none is named, and has no evidence where nobody flew', async () => {
    const light = await compare('&allUpMassKg=95&evidence=class')
    expect(light.setups[0]!.evidence.sessions).toBe(4)
    const tandem = await compare('&massClass=tandem&evidence=class')
    expect(tandem.pairs[0]!.reasonCode).toBe('noEvidence')
  })

  it('of an earlier fit has to be that class', async () => {
    const { fitId } = await compare()
    const { status } = await field.get(
      `/v1/comparisons?metric=climbRate&setups=${a},${c}&evidence=class&massClass=tandem&fitId=${fitId}`,
    )
    expect(status).toBe(404)
  })
})

describe('a result that does not fit the rest', () => {
  it('counts less in the robust fit, and the answer says whether the verdict agrees', async () => {
    const pairs = (await compare()).pairs
    expect(pairs[0]!.robust).toMatchObject({ agrees: expect.any(Boolean) })
    const { rows } = await field.db.pool.query(
      `SELECT count(*) FROM fit WHERE header #>> '{about,variant,robust}' = 'true'`,
    )
    expect(Number(rows[0].count)).toBeGreaterThan(0)
  })
})
