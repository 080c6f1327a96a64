import type { PoolClient } from 'pg'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'

import { LOCKS } from '../../../src/db/advisory-lock.ts'
import type { Comparison } from '../../../src/features/comparisons/schema.ts'
import type { Fit } from '../../../src/features/fits/schema.ts'
import { type Field, openField } from '../comparisons/evenings.ts'

let field: Field
let path: string
/** Holds the lock under which companions are made, so that they wait until it lets go. */
let holder: PoolClient

beforeAll(async () => {
  field = await openField()
  const [a, b] = [await field.setup(), await field.setup()]
  path = `/v1/comparisons?metric=climbRate&setups=${a},${b}`
  for (let i = 0; i < 9; i++) {
    const interest = i === 8 ? 'dealer' : 'none'
    const flown = [
      { setupId: a, climbsS: [44 + (i % 3), 45, 44.4] },
      { setupId: b, climbsS: [50 + (i % 2), 50.6, 49.8] },
    ]
    await field.fly(i % 3, flown, { interest })
  }
  await field.app.fits.refresh()
})

afterAll(() => field.close())

const hold = async () => {
  holder = await field.db.pool.connect()
  await holder.query('SELECT pg_advisory_lock($1)', [LOCKS.companions])
}

const letGo = async () => {
  await holder.query('SELECT pg_advisory_unlock($1)', [LOCKS.companions])
  holder.release()
}

describe('what stands beside a fit', () => {
  it('is not waited for: the answer comes without it, and with it once it is made', async () => {
    await hold()
    const before = (await field.get<Comparison>(path)).body
    await field.fly(0, [
      { setupId: before.setups[0]!.setupId, climbsS: [44.2] },
      { setupId: before.setups[1]!.setupId, climbsS: [50.3] },
    ])
    await field.app.fits.publish()
    const early = await field.request.get(path).expect(200)
    expect(early.body.fitId).not.toBe(before.fitId)
    expect(early.body.otherFits).toBe('pending')
    expect(early.body.pairs[0]).toMatchObject({ robust: null, withoutInterested: null })
    const lone: Fit = (await field.request.get(`/v1/fits/${early.body.fitId}`)).body
    expect(lone).toMatchObject({ otherFits: 'pending', report: null })

    const known = { 'if-none-match': early.headers.etag! }
    await field.request.get(path).set(known).expect(304)
    await letGo()
    await field.app.fits.refresh()
    const late = await field.request.get(path).set(known).expect(200)
    expect(late.body.otherFits).toBe('made')
    expect(late.body.pairs[0].robust.verdict).toBe(late.body.pairs[0].verdict)
    expect(late.body.pairs[0].withoutInterested.changes).toBe(false)
    const fit: Fit = (await field.request.get(`/v1/fits/${early.body.fitId}`)).body
    expect(fit.otherFits).toBe('made')
    expect(fit.report).not.toBeNull()

    // Nothing else of the answer has moved.
    const { robust: _, withoutInterested: __, ...pair } = late.body.pairs[0]
    const { robust: ___, withoutInterested: ____, ...earlyPair } = early.body.pairs[0]
    expect(pair).toEqual(earlyPair)
    expect(late.body.setups).toEqual(early.body.setups)
    await field.request.get(path).set({ 'if-none-match': late.headers.etag! }).expect(304)
  })

  it('is made when it is asked for: the evidence of now without people with an interest', async () => {
    await hold()
    const [a, b] = (await field.get<Comparison>(path)).body.setups.map(({ setupId }) => setupId)
    await field.fly(1, [
      { setupId: a!, climbsS: [44.9] },
      { setupId: b!, climbsS: [50.1] },
    ])
    await field.app.fits.publish()
    const all = (await field.get<Comparison>(path)).body
    expect(all.otherFits).toBe('pending')
    const rest = await field.get<Comparison>(`${path}&excludeInterested=true`)
    expect(rest.status).toBe(200)
    expect(rest.body.setups[0]!.evidence.sessions).toBe(all.setups[0]!.evidence.sessions - 1)
    const named = `${path}&excludeInterested=true&fitId=${all.fitId}`
    expect((await field.get(named)).status).toBe(503)
    await letGo()
    await field.app.fits.refresh()
    expect((await field.get<Comparison>(named)).body.fitId).toBe(rest.body.fitId)
  })

  it('cannot be changed once it is there', async () => {
    await expect(field.db.pool.query('UPDATE fit_companion SET robust_id = NULL')).rejects.toThrow(
      /written once/,
    )
  })
})
