import { afterAll, beforeAll, describe, expect, it } from 'vitest'

import { loadDemo } from '../../../src/demo/load.ts'
import type { Comparison, Ranking } from '../../../src/features/comparisons/schema.ts'
import type { Fit } from '../../../src/features/fits/schema.ts'
import { startTestApp, type TestApp } from '../../support/app.ts'

let test: TestApp
let fit: Fit
let ranking: Ranking

/** Number of the demo's evening in which a stopwatch was started late (src/demo/simulate.ts). */
const SLIP_EVENING = 33

beforeAll(async () => {
  test = await startTestApp()
  await loadDemo(test.db)
  await test.app.fits.refresh()
  ranking = (await test.request.get('/v1/rankings?metric=climbRate')).body
  fit = (await test.request.get(`/v1/fits/${ranking.fitId}`).expect(200)).body
})

afterAll(() => test.close())

describe('GET /v1/fits/{id} of the demo', () => {
  it('flags the one gross slip, by run and by session, and nobody else’s run', async () => {
    const { rows } = await test.db.pool.query<{ id: string }>(
      'SELECT id FROM submission ORDER BY created_at OFFSET $1 LIMIT 1',
      [SLIP_EVENING],
    )
    const { outliers, influence } = fit.report!
    expect(outliers.runs[0]).toMatchObject({
      submissionId: rows[0]!.id,
      pointer: '/entries/0/runs/0',
    })
    expect(outliers.runs).toHaveLength(1)
    expect(outliers.runs[0]!.residual).toBeGreaterThan(4)
    const flagged = influence.sessions.filter((session) => session.flagged)
    expect(flagged.map(({ submissionId }) => submissionId)).toContain(rows[0]!.id)
    expect(fit.notes.join(' ')).toMatch('does not fit the rest')
  })

  it('leaves the flagged session in the evidence', async () => {
    const { rows } = await test.db.pool.query('SELECT count(*) FROM submission')
    expect(fit.counts.sessions).toBe(Number(rows[0].count))
  })

  it('tells how far results vary, which sessions carry a pair, and whether designs agree', () => {
    expect(fit.heterogeneity.cell.standardDeviationPercent).toBeGreaterThan(0)
    const [low, high] = fit.heterogeneity.session.interval95Percent!
    expect(low).toBeLessThan(fit.heterogeneity.session.standardDeviationPercent)
    expect(high).toBeGreaterThan(fit.heterogeneity.session.standardDeviationPercent)
    const { influence, consistency, mass } = fit.report!
    expect(influence.sessions.some(({ mostMoved }) => mostMoved !== null)).toBe(true)
    expect(consistency.designs!.degreesOfFreedom).toBeGreaterThan(0)
    expect(consistency.splits.length).toBeGreaterThan(0)
    expect(mass!.setups.length).toBeGreaterThan(0)
  })

  it('says nothing about who flew', async () => {
    const { rows } = await test.db.pool.query<{ id: string; display_name: string }>(
      'SELECT id, display_name FROM account',
    )
    const text = JSON.stringify(fit)
    for (const { id, display_name: name } of rows) {
      expect(text).not.toContain(id)
      expect(text).not.toContain(name)
    }
  })

  it('names its robust and its disinterested sibling, which can be read too', async () => {
    const { robust, withoutInterested } = fit.siblings
    const other: Fit = (await test.request.get(`/v1/fits/${robust}`).expect(200)).body
    expect(other.variant.robust).toBe(true)
    const rest: Fit = (await test.request.get(`/v1/fits/${withoutInterested}`).expect(200)).body
    expect(rest.variant.excludeInterested).toBe(true)
    expect(rest.counts.sessions).toBe(fit.counts.sessions - 1)
  })

  it('says beside every comparison whether the other fits agree', async () => {
    const ids = ranking.ranked.slice(0, 4).map(({ setupId }) => setupId)
    const { body } = await test.request.get(`/v1/comparisons?metric=climbRate&setups=${ids}`)
    for (const pair of (body as Comparison).pairs) {
      expect(pair.robust).toBeDefined()
      expect(pair.withoutInterested).toBeDefined()
    }
  })

  it('says in plain words what an empty fit cannot tell', async () => {
    const { body } = await test.request.get('/v1/rankings?metric=soundLevel&soundPosition=distance')
    const empty: Fit = (await test.request.get(`/v1/fits/${body.fitId}`).expect(200)).body
    expect(empty.report).toBeNull()
    expect(empty.notes).toEqual(['No run counts yet.'])
  })
})
