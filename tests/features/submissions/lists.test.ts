import { afterAll, beforeAll, describe, expect, it } from 'vitest'

import { type Desk, type Pilot, scenarioA, startDesk } from './desk.ts'

let desk: Desk

beforeAll(async () => {
  desk = await startDesk()
})
afterAll(() => desk.close())

interface Item {
  readonly id: string
  readonly view: string
  readonly flownIn: string
  readonly withdrawnAt: string | null
}

function get(path: string, pilot?: Pilot) {
  const request = desk.request.get(path)
  return pilot === undefined ? request : request.auth(pilot.token, { type: 'bearer' })
}

async function submit(pilot: Pilot, body: object): Promise<string> {
  const answer = await desk.request
    .post('/v1/submissions')
    .auth(pilot.token, { type: 'bearer' })
    .send(body)
    .expect(201)
  return answer.body.id
}

/** Every item of a list, page by page; a page that says more follows is a full one. */
async function walk(path: string, limit: number, pilot?: Pilot): Promise<Item[]> {
  const items: Item[] = []
  let cursor: string | null = ''
  while (cursor !== null) {
    const query: string = cursor === '' ? '' : `&cursor=${cursor}`
    const { body } = await get(`${path}&limit=${limit}${query}`, pilot).expect(200)
    items.push(...body.items)
    cursor = body.nextCursor
    if (cursor !== null) expect(body.items).toHaveLength(limit)
  }
  return items
}

describe('GET /v1/submissions?mine=true', () => {
  it("lists the caller's own, the newest first, withdrawn ones too, across pages", async () => {
    const [pilot, other] = [await desk.signUp(), await desk.signUp()]
    const setupId = await desk.setup()
    const ids: string[] = []
    for (let i = 0; i < 5; i++) ids.unshift(await submit(pilot, scenarioA(setupId)))
    await submit(other, scenarioA(setupId))
    await desk.request
      .delete(`/v1/submissions/${ids[1]}`)
      .auth(pilot.token, { type: 'bearer' })
      .expect(204)

    for (const limit of [1, 2, 5, 50]) {
      const items = await walk('/v1/submissions?mine=true', limit, pilot)
      expect(items.map((item) => item.id)).toEqual(ids)
      expect(items.every((item) => item.view === 'full')).toBe(true)
      expect(items.map((item) => item.withdrawnAt !== null)).toEqual([
        false,
        true,
        false,
        false,
        false,
      ])
    }
  })

  it('needs an account', async () => {
    await get('/v1/submissions?mine=true').expect(401)
  })
})

describe('GET /v1/submissions?setupId=', () => {
  it('lists what counts for the set-up and those merged into it, as everybody sees it', async () => {
    const [pilot, other] = [await desk.signUp(), await desk.signUp()]
    const [setupId, merged, elsewhere] = [
      await desk.setup(),
      await desk.setup(),
      await desk.setup(),
    ]
    const april = await submit(pilot, { ...scenarioA(setupId), flownOn: '2026-04-02' })
    const may = await submit(other, scenarioA(merged))
    const withdrawn = await submit(pilot, scenarioA(setupId))
    const revisedAway = await submit(pilot, scenarioA(setupId))
    await submit(pilot, scenarioA(elsewhere))
    const own = (method: 'delete' | 'post', path: string) =>
      desk.request[method](path).auth(pilot.token, { type: 'bearer' })
    await own('delete', `/v1/submissions/${withdrawn}`).expect(204)
    await own('post', `/v1/submissions/${revisedAway}/revisions`)
      .send(scenarioA(elsewhere))
      .expect(201)
    await desk.db.pool.query('UPDATE setup SET merged_into_id = $2 WHERE id = $1', [
      merged,
      setupId,
    ])

    for (const asked of [setupId, merged]) {
      const items = await walk(`/v1/submissions?setupId=${asked}`, 1, pilot)
      expect(items.map((item) => item.id)).toEqual([may, april])
      expect(items.map((item) => item.view)).toEqual(['public', 'public'])
    }
    expect(await walk(`/v1/submissions?setupId=${elsewhere}`, 50)).toHaveLength(2)
  })

  it('gives nothing of the day away in its cursor', async () => {
    const pilot = await desk.signUp()
    const setupId = await desk.setup()
    for (let i = 0; i < 2; i++) await submit(pilot, scenarioA(setupId))
    const { body } = await get(`/v1/submissions?setupId=${setupId}&limit=1`).expect(200)
    const key = JSON.parse(Buffer.from(body.nextCursor, 'base64url').toString())
    expect(key).toEqual(['2026-05', body.items[0].id])
  })

  it('is empty for a set-up that nobody flew or knows', async () => {
    const { body } = await get('/v1/submissions?setupId=00000000-0000-4000-8000-000000000000')
    expect(body).toEqual({ items: [], nextCursor: null })
  })
})

describe('a list of submissions', () => {
  const cursorOf = (key: unknown) => Buffer.from(JSON.stringify(key)).toString('base64url')

  it.each([
    ['without saying of what', ''],
    ['of both at once', '?mine=true&setupId=00000000-0000-4000-8000-000000000000'],
    ['of mine=false', '?mine=false'],
    ['with an id that is none', '?setupId=17'],
    ['of no items', '?mine=true&limit=0'],
    ['of too many items', '?mine=true&limit=51'],
    ['after no cursor of ours', '?mine=true&cursor=%00'],
    ['after a cursor of another list', `?mine=true&cursor=${cursorOf(['2026-05', 'x'])}`],
    ['after a date that is none', `?mine=true&cursor=${cursorOf(['2026-13-40T00:00:00Z', 'x'])}`],
    [
      'after a number',
      `?setupId=00000000-0000-4000-8000-000000000000&cursor=${cursorOf([1e300, null])}`,
    ],
  ])('is refused with 400 %s', async (_, query) => {
    const pilot = await desk.signUp()
    const { status, body } = await get(`/v1/submissions${query}`, pilot)
    expect(status).toBe(400)
    expect(body.errors[0].pointer).toMatch(/^\/(mine|setupId|limit|cursor)$/)
  })
})
