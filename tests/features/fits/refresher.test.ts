import { afterAll, beforeAll, describe, expect, it } from 'vitest'

import { buildApp } from '../../../src/app.ts'
import { QUANTITIES } from '../../../src/core/comparison/metric.ts'
import type { Comparison } from '../../../src/features/comparisons/schema.ts'
import { type Field, openField } from '../comparisons/evenings.ts'

let field: Field

beforeAll(async () => {
  field = await openField()
})

afterAll(() => field.close())

const fitCount = async () =>
  Number((await field.db.pool.query('SELECT count(*) FROM fit')).rows[0].count)

describe('FitRefresher', () => {
  it('is asked before the first fit: the answer is 503 and says when to come back', async () => {
    const setups = [await field.setup(), await field.setup()].join(',')
    const answer = await field.request.get(`/v1/comparisons?metric=climbRate&setups=${setups}`)
    expect(answer.status).toBe(503)
    expect(answer.headers['retry-after']).toBeDefined()
    expect(answer.headers['content-type']).toMatch('application/problem+json')
  })

  it('stores one fit per quantity, and none again for the same evidence', async () => {
    await field.app.fits.refresh()
    expect(await fitCount()).toBe(QUANTITIES.length)
    await field.app.fits.refresh()
    expect(await fitCount()).toBe(QUANTITIES.length)
  })

  it('folds several arrivals into few refreshes, and misses none', async () => {
    const [a, b] = [await field.setup(), await field.setup()]
    const before = await fitCount()
    await Promise.all(
      Array.from({ length: 12 }, (_, i) =>
        field.fly(i % 3, [
          { setupId: a, climbsS: [45 + i / 10] },
          { setupId: b, climbsS: [50 + i / 10] },
        ]),
      ),
    )
    await field.app.fits.refresh()
    const { body } = await field.get<Comparison>(
      `/v1/comparisons?metric=climbRate&setups=${a},${b}`,
    )
    expect(body.setups[0]!.evidence.sessions).toBe(12)
    expect((await fitCount()) - before).toBeLessThan(12)
  })

  it('answers by a fit that it made as a process does that reads it', async () => {
    const [a, b] = [await field.setup(), await field.setup()]
    await field.fly(0, [
      { setupId: a, climbsS: [45, 46], burnsS: [600] },
      { setupId: b, climbsS: [50, 51], burnsS: [640] },
    ])
    await field.app.fits.refresh()
    const paths = [
      `/v1/comparisons?metric=climbRate&setups=${a},${b}`,
      '/v1/rankings?metric=fuelFlow',
      `/v1/setups/${a}/predictions`,
    ]
    const made = await Promise.all(paths.map((path) => field.get(path)))
    const reader = await buildApp({
      db: field.db,
      logger: false,
      rateLimit: false,
      trustProxy: false,
    })
    const read = await Promise.all(paths.map((path) => reader.inject(path)))
    await reader.close()
    expect(made.map(({ status }) => status)).toEqual([200, 200, 200])
    expect(read.map(({ body }) => body)).toEqual(made.map(({ text }) => text))
  })

  it('refuses to change a stored fit', async () => {
    await expect(field.db.pool.query("UPDATE fit SET model_version = 'x'")).rejects.toThrow(
      /written once/,
    )
  })
})
