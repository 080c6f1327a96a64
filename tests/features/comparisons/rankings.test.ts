import { afterAll, beforeAll, describe, expect, it } from 'vitest'

import type {
  ComparedSetup,
  Comparison,
  Ranking,
} from '../../../src/features/comparisons/schema.ts'
import type { Fit } from '../../../src/features/fits/schema.ts'
import { type Field, openField } from './evenings.ts'

/** A ranked setup has every figure. */
type Ranked = { [K in keyof ComparedSetup]: NonNullable<ComparedSetup[K]> }
type Answer = Omit<Ranking, 'ranked'> & { readonly ranked: Ranked[] }

let field: Field
const setups: string[] = []

/** Four setups in a chain of sessions, best first; a fifth apart; a sixth seen once. */
beforeAll(async () => {
  field = await openField()
  for (let i = 0; i < 6; i++) setups.push(await field.setup())
  const climb = (i: number, s: number) => ({ setupId: setups[i]!, climbsS: [s, s + 0.4, s - 0.3] })
  for (const pilot of [0, 1, 2]) {
    await field.fly(pilot, [climb(0, 40 + pilot), climb(1, 46 + pilot)])
    await field.fly(pilot, [climb(1, 45.5 + pilot), climb(2, 52 + pilot)])
    await field.fly(pilot, [climb(2, 51 + pilot), climb(3, 60 + pilot)])
  }
  await field.fly(0, [climb(4, 35)])
  await field.fly(1, [climb(4, 35.5)])
  await field.fly(0, [climb(5, 44), climb(0, 40)])
  await field.app.fits.refresh()
})

afterAll(() => field.close())

const rank = async (query: string) =>
  (await field.get<Answer>(`/v1/rankings?metric=climbRate&${query}`)).body
const idsOf = (list: { setupId: string }[]) => list.map(({ setupId }) => setupId)

describe('GET /v1/rankings', () => {
  it('ranks the largest linked group, best first, and says why the others are not in it', async () => {
    const { ranked, unranked, setAside } = await rank('massClass=120to140')
    expect(idsOf(ranked)).toEqual(setups.slice(0, 4))
    expect(Object.fromEntries(unranked.map((s) => [s.setupId, s.refused?.reasonCode]))).toEqual({
      [setups[4]!]: 'notConnected',
      [setups[5]!]: 'oneSession',
    })
    expect(setAside).toEqual([])
  })

  it('gives every rank with its uncertainty', async () => {
    const { ranked } = await rank('allUpMassKg=120')
    const best = ranked.map((s) => s.rank.probabilityBest)
    expect(best.reduce((sum: number, p: number) => sum + p, 0)).toBeCloseTo(1, 9)
    for (const [place, { rank: r, value }] of ranked.entries()) {
      expect(r.interval95[0]).toBeLessThanOrEqual(r.median)
      expect(r.interval95[1]).toBeGreaterThanOrEqual(r.median)
      if (place > 0) expect(value).toBeLessThan(ranked[place - 1]!.value)
    }
    const scores = ranked.map((s) => s.rank.pScore)
    expect(scores.reduce((sum: number, p: number) => sum + p, 0) / scores.length).toBeCloseTo(
      0.5,
      9,
    )
  })

  it('lists as many as asked for', async () => {
    expect((await rank('limit=2')).ranked).toHaveLength(2)
  })

  it('sets a setup aside that was reported unsafe, however fast it climbs', async () => {
    const { rows } = await field.db.pool.query(
      `INSERT INTO safety_report (setup_id, state, reason) VALUES ($1, 'doNotFly', 'The tip has touched the hoop.') RETURNING id`,
      [setups[0]],
    )
    const { ranked, setAside, cautions } = await rank('massClass=100to120')
    expect(idsOf(ranked)).toEqual(setups.slice(1, 4))
    expect(setAside[0]).toMatchObject({
      setupId: setups[0],
      rank: null,
      safety: { state: 'doNotFly', advisories: ['The tip has touched the hoop.'] },
    })
    expect(cautions[0]).toMatch(/Do not fly/)
    const pair = await field.get<Comparison>(
      `/v1/comparisons?metric=climbRate&setups=${setups[0]},${setups[1]}`,
    )
    expect(pair.body.pairs[0]!.sentence).toMatch(/^Do not fly .* climbs faster than /)
    await field.db.pool.query('DELETE FROM safety_report WHERE id = $1', [rows[0].id])
  })

  it('heeds a report on a setup that was merged into another', async () => {
    const twin = await field.setup()
    await field.db.pool.query('UPDATE setup SET merged_into_id = $1 WHERE id = $2', [
      setups[3],
      twin,
    ])
    const { rows } = await field.db.pool.query(
      `INSERT INTO safety_report (setup_id, state, reason) VALUES ($1, 'doNotFly', 'Cracked hub.') RETURNING id`,
      [twin],
    )
    const { setAside } = await rank('massClass=100to120')
    expect(idsOf(setAside)).toEqual([setups[3]])
    await field.db.pool.query('DELETE FROM safety_report WHERE id = $1', [rows[0].id])
  })

  it('names people with an interest among the evidence', async () => {
    const id = await field.fly(
      2,
      [
        { setupId: setups[1]!, climbsS: [46] },
        { setupId: setups[2]!, climbsS: [52] },
      ],
      { interest: 'dealer' },
    )
    await field.app.fits.refresh()
    const { ranked, cautions } = await rank('massClass=100to120')
    expect(ranked[1]!.evidence.interestedSessions).toBe(1)
    expect(cautions.join(' ')).toMatch(/interest in selling/)
    await field.request
      .delete(`/v1/submissions/${id}`)
      .set(field.pilots[2]!.authorization)
      .expect(204)
    await field.app.fits.refresh()
  })

  it('describes the fit it rests on', async () => {
    const { fitId } = await rank('massClass=100to120')
    const { status, body } = await field.get<Fit>(`/v1/fits/${fitId}`)
    expect(status).toBe(200)
    expect(body).toMatchObject({ id: fitId, quantity: 'inducedPower', converged: true })
    expect(body.counts).toMatchObject({ setups: 6, pilots: 3, sessions: 12 })
    expect(Object.keys(body.varianceComponents)).toEqual(['pilot', 'session', 'cell', 'run'])
  })

  it('answers nothing ranked where nothing was flown', async () => {
    const { body } = await field.get<Answer>('/v1/rankings?metric=fuelFlow&massClass=100to120')
    expect(body).toMatchObject({ ranked: [], unranked: [], setAside: [] })
  })
})
