import { afterAll, beforeAll, describe, expect, it } from 'vitest'

import { loadDemo } from '../../../src/demo/load.ts'
import type { Ranking } from '../../../src/features/comparisons/schema.ts'
import type { AuditEvent, Review } from '../../../src/features/reviews/schema.ts'
import { startTestApp, type TestApp } from '../../support/app.ts'
import { type SignedUp, signUp } from '../../support/sign-up.ts'

let test: TestApp
let moderator: SignedUp
let slip: string
let review: Review
let first: Ranking

/** Number of the demo's evening in which a stopwatch was started late (src/demo/simulate.ts). */
const SLIP_EVENING = 33

const ranking = async (query = ''): Promise<Ranking> =>
  (await test.request.get(`/v1/rankings?metric=climbRate${query}`).expect(200)).body

const outliers = async (state = 'waiting'): Promise<Review[]> => {
  const { body } = await test.request
    .get(`/v1/reviews?limit=200&state=${state}`)
    .set(moderator.authorization)
    .expect(200)
  return body.items.filter((item: Review) => item.kind === 'outlier')
}

const decide = (id: string, decision: string, reason: string) =>
  test.request
    .post(`/v1/reviews/${id}/decisions`)
    .set(moderator.authorization)
    .send({ decision, reason })

const sessionsIn = async (fitId: string): Promise<number> =>
  (await test.request.get(`/v1/fits/${fitId}`)).body.counts.sessions

beforeAll(async () => {
  test = await startTestApp()
  moderator = await signUp(test, 'moderator')
  await loadDemo(test.db)
  await test.app.fits.refresh()
  const { rows } = await test.db.pool.query<{ id: string }>(
    'SELECT id FROM submission ORDER BY created_at OFFSET $1 LIMIT 1',
    [SLIP_EVENING],
  )
  slip = rows[0]!.id
  first = await ranking()
})

afterAll(() => test.close())

describe('a session that does not fit the rest', () => {
  it('goes to the moderators with the reason in plain words, and still counts', async () => {
    const found = (await outliers()).filter(({ submissionId }) => submissionId === slip)
    expect(found).toHaveLength(1)
    review = found[0]!
    expect(review).toMatchObject({ origin: 'fit', revision: 1, setAside: false, decidedAt: null })
    expect(review.text).toMatch('Among the climbs this session stands out.')
    expect(review.text).toMatch(
      /run at \/entries\/0\/runs\/0 is \d\.\d standard deviations (higher|lower) than/,
    )
    const { rows } = await test.db.pool.query('SELECT count(*) FROM submission')
    expect(await sessionsIn(first.fitId)).toBe(Number(rows[0].count))
    const trail = await test.request
      .get(`/v1/audit-events?subjectId=${review.id}`)
      .set(moderator.authorization)
    expect(trail.body.items).toMatchObject([{ actorId: null, action: 'report.filed' }])
  })

  it('is seen by nobody but moderators', async () => {
    const pilot = await signUp(test)
    for (const path of ['/v1/reviews', `/v1/reviews/${review.id}`]) {
      await test.request.get(path).set(pilot.authorization).expect(403)
    }
  })

  it('is asked about once, however often the fits are refreshed', async () => {
    const before = (await outliers()).length
    await test.app.fits.refresh()
    expect(await outliers()).toHaveLength(before)
  })

  it('is no evidence once it is set aside, and what was answered before can be had again', async () => {
    const reason = 'The watch was started late, says the pilot.'
    const { body } = await decide(review.id, 'setAside', reason).expect(201)
    expect(body).toMatchObject({ setAside: true, decisions: [{ decision: 'setAside', reason }] })
    await test.app.fits.refresh()
    const without = await ranking()
    expect(without.fitId).not.toBe(first.fitId)
    expect(await sessionsIn(without.fitId)).toBe((await sessionsIn(first.fitId)) - 1)
    expect(await ranking(`&fitId=${first.fitId}`)).toEqual(first)
    expect((await outliers('inForce')).map(({ id }) => id)).toContain(review.id)
    const trail = await test.request
      .get(`/v1/audit-events?subjectId=${slip}`)
      .set(moderator.authorization)
    expect(trail.body.items as AuditEvent[]).toMatchObject([
      { actorId: moderator.accountId, action: 'evidence.setAside', detail: { reason } },
    ])
    const { submission } = await seen()
    expect(submission.setAside).toBe(true)
  })

  it('can be released as data only in step with the fits', async () => {
    const admin = await signUp(test, 'admin')
    const asked = await test.request.post('/v1/datasets').set(admin.authorization).expect(202)
    const state = await settled(asked.body.id, admin)
    expect(state).toBe('published')
  })

  it('counts as before once it is kept', async () => {
    await decide(review.id, 'keep', 'Two watches agree.').expect(201)
    await test.app.fits.refresh()
    expect(await ranking()).toEqual(first)
    expect((await outliers('closed')).map(({ id }) => id)).toContain(review.id)
    expect(await outliers()).not.toContainEqual(expect.objectContaining({ submissionId: slip }))
    expect((await seen()).submission.setAside).toBe(false)
  })

  it('is not decided on as if it were a danger, nor a danger as if it were evidence', async () => {
    for (const decision of ['doNotFly', 'advisory', 'lift', 'dismiss']) {
      expect((await decide(review.id, decision, 'x').expect(409)).body.detail).toMatch(/setAside/)
    }
    const setupId = first.ranked[0]!.setupId
    const pilot = await signUp(test)
    const filed = await test.request
      .post('/v1/reports')
      .set(pilot.authorization)
      .send({ setupId, kind: 'wrong', text: 'The frame is another one.' })
      .expect(201)
    for (const decision of ['keep', 'setAside'])
      await decide(filed.body.id, decision, 'x').expect(409)
  })

  it('counts again in a corrected revision, which is looked at anew if it is odd too', async () => {
    await decide(review.id, 'setAside', 'The watch, after all.').expect(201)
    await test.app.fits.refresh()
    const aside = await sessionsIn((await ranking()).fitId)
    const { submission } = await seen()
    const { rows } = await test.db.pool.query<{ account_id: string; body: object }>(
      `SELECT account_id, body FROM submission
         JOIN submission_revision ON submission_id = submission.id WHERE submission.id = $1`,
      [slip],
    )
    expect(submission.setAside).toBe(true)
    await test.db.pool.query('UPDATE submission SET account_id = $2 WHERE id = $1', [
      slip,
      moderator.accountId,
    ])
    await test.request
      .post(`/v1/submissions/${slip}/revisions`)
      .set(moderator.authorization)
      .send(rows[0]!.body)
      .expect(201)
    await test.app.fits.refresh()
    expect(await sessionsIn((await ranking()).fitId)).toBe(aside + 1)
    expect((await outliers()).find(({ submissionId }) => submissionId === slip)).toMatchObject({
      revision: 2,
    })
  })
})

async function seen() {
  const { body } = await test.request.get(`/v1/submissions/${slip}`).set(moderator.authorization)
  return { submission: body }
}

/** State of a request for a release when it is done. */
async function settled(id: string, who: SignedUp): Promise<string> {
  for (;;) {
    const { body } = await test.request.get(`/v1/dataset-requests/${id}`).set(who.authorization)
    if (!['queued', 'running'].includes(body.state)) return body.state
    await new Promise((resolve) => setTimeout(resolve, 100))
  }
}
