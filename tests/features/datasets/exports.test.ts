import { once } from 'node:events'
import { get, type IncomingMessage } from 'node:http'

import { afterAll, beforeAll, describe, expect, it } from 'vitest'

import { loadDemo } from '../../../src/demo/load.ts'
import { startTestApp, type TestApp } from '../../support/app.ts'

type Run = Record<string, string | number | boolean | null>

let test: TestApp

beforeAll(async () => {
  test = await startTestApp()
  await loadDemo(test.db)
})
afterAll(() => test.close())

async function exported(query = ''): Promise<Run[]> {
  const { text } = await test.request.get(`/v1/exports/runs?format=ndjson${query}`).expect(200)
  return text
    .split('\n')
    .filter((line) => line !== '')
    .map((line) => JSON.parse(line))
}

async function parquet(): Promise<Buffer> {
  const { body } = await test.request
    .get('/v1/exports/runs?format=parquet')
    .buffer(true)
    .parse((response, done) => {
      const parts: Buffer[] = []
      response.on('data', (part: Buffer) => parts.push(part))
      response.on('end', () => done(null, Buffer.concat(parts)))
    })
    .expect(200)
  return body
}

/** Every run of the demo counts: nothing in it was withdrawn or corrected. */
async function storedRuns(): Promise<number> {
  return test.db.prisma.run.count()
}

describe('a live export', () => {
  it('has the columns of a release in all three formats', async () => {
    const csv = await test.request.get('/v1/exports/runs').expect(200)
    const [header] = csv.text.split('\r\n')
    const [run] = await exported()
    expect(Object.keys(run!)).toEqual(header!.split(','))
    expect(csv.text.trim().split('\r\n')).toHaveLength(1 + (await storedRuns()))
    expect(csv.headers['content-disposition']).toBe('attachment; filename="fairclimb-runs.csv"')
    const bytes = await parquet()
    expect(bytes.subarray(0, 4).toString()).toBe('PAR1')
    expect(bytes.subarray(-4).toString()).toBe('PAR1')
  })

  it('draws its keys anew every time', async () => {
    const [first, second] = [await exported(), await exported()]
    const keys = new Set(first.map(({ pilot_key }) => pilot_key))
    expect(keys.size).toBe(25)
    expect(second.filter(({ pilot_key }) => keys.has(pilot_key!))).toEqual([])
  })

  it('filters by kind', async () => {
    const burns = await exported('&kind=fuelBurn')
    expect(burns).toHaveLength(104)
    expect(new Set(burns.map(({ kind }) => kind))).toEqual(new Set(['fuelBurn']))
    expect(await exported('&kind=somethingElse')).toEqual([])
  })

  it('filters by component and setup', async () => {
    const { rows } = await test.db.pool.query<{ setup: string; part: string }>(
      'SELECT id AS setup, propeller_id AS part FROM setup ORDER BY id LIMIT 1',
    )
    const { setup, part } = rows[0]!
    const all = await exported()
    const ofSetup = await exported(`&setupId=${setup}`)
    expect(ofSetup).toHaveLength(all.filter(({ setup_id }) => setup_id === setup).length)
    const withPart = await test.db.pool.query<{ id: string }>(
      'SELECT id FROM setup WHERE propeller_id = $1',
      [part],
    )
    const ids = new Set(withPart.rows.map(({ id }) => id))
    const ofPart = await exported(`&componentId=${part}`)
    expect(ofPart).toHaveLength(all.filter(({ setup_id }) => ids.has(String(setup_id))).length)
    expect(ofPart.length).toBeGreaterThan(ofSetup.length)
  })

  it('filters by class and month as far as they are shown, so that a filter tells nothing more', async () => {
    const all = await exported()
    for (const massClass of ['under100', '100to120', '120to140', '140to170', 'tandem']) {
      const shown = all.filter(({ all_up_mass_class }) => all_up_mass_class === massClass)
      expect(await exported(`&massClass=${massClass}`)).toHaveLength(shown.length)
    }
    const months = all.filter(({ flown_month }) => flown_month !== null)
    expect(await exported('&from=1990-01&to=2090-12')).toHaveLength(months.length)
  })

  it.each(['format=xlsx', 'kind=a;b', 'from=2026-13', 'componentId=x', 'nonsense=1'])(
    'refuses %s',
    async (query) => {
      await test.request.get(`/v1/exports/runs?${query}`).expect(400)
    },
  )

  it('leaves no connection behind when the caller goes away', async () => {
    const before = test.db.pool.totalCount
    const { port } = test.app.server.address() as { port: number }
    for (let i = 0; i < 20; i++) {
      const asked = get({ port, path: '/v1/exports/runs', agent: false })
      const [answer] = (await once(asked, 'response')) as [IncomingMessage]
      await once(answer, 'data')
      answer.destroy()
    }
    expect(await exported()).toHaveLength(await storedRuns())
    expect(test.db.pool.waitingCount).toBe(0)
    expect(test.db.pool.totalCount).toBeLessThanOrEqual(Math.max(before, 4))
  })
})
