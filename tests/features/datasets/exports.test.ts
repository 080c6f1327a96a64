import { once } from 'node:events'
import { get, type IncomingMessage } from 'node:http'

import { afterAll, beforeAll, describe, expect, it } from 'vitest'

import { METHOD_VERSION } from '../../../src/core/version.ts'
import { inTransaction } from '../../../src/db/transaction.ts'
import { loadDemo } from '../../../src/demo/load.ts'
import { layoutOf } from '../../../src/features/datasets/entries/entries-sql.ts'
import {
  collectLateEntries,
  prepareEntries,
} from '../../../src/features/datasets/entries/prepare.ts'
import { runsSelect } from '../../../src/features/datasets/entries/runs-select.ts'
import { anonymise } from '../../../src/features/datasets/privacy/anonymise.ts'
import { tablesFor } from '../../../src/features/datasets/tables/tables.ts'
import { NewRun } from '../../../src/features/submissions/run-kinds.ts'
import { startTestApp, type TestApp } from '../../support/app.ts'

type Run = Record<string, string | number | boolean | null>

let test: TestApp

beforeAll(async () => {
  test = await startTestApp()
  await loadDemo(test.db)
})
afterAll(() => test.close())

const COUNTS = 'withdrawn_at IS NULL'

const WITHDRAW_ONE = `
  UPDATE submission SET withdrawn_at = now()
   WHERE id = (SELECT min(id::text)::uuid FROM submission WHERE ${COUNTS})`

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

  it('has the same bytes and strong tag for the same evidence and question, and 304 for who has them', async () => {
    const first = await test.request.get('/v1/exports/runs').set('accept-encoding', 'identity')
    const second = await test.request.get('/v1/exports/runs').set('accept-encoding', 'identity')
    expect(first.headers.etag).toMatch(/^"[0-9a-f]{64}"$/)
    expect(second.headers.etag).toBe(first.headers.etag)
    expect(second.text).toBe(first.text)
    const known = await test.request
      .get('/v1/exports/runs')
      .set('if-none-match', first.headers.etag as string)
      .expect(304)
    expect(known.text).toBe('')
    const other = await test.request.get('/v1/exports/runs?kind=climb')
    expect(other.headers.etag).not.toBe(first.headers.etag)
  })

  it('is compressed where the caller takes that, under a tag of its own', async () => {
    const plain = await test.request.get('/v1/exports/runs').set('accept-encoding', 'identity')
    const packed = await test.request.get('/v1/exports/runs').set('accept-encoding', 'gzip')
    expect(packed.headers['content-encoding']).toBe('gzip')
    expect(packed.headers.etag).toBe(`${plain.headers.etag!.slice(0, -1)}-gzip"`)
    expect(packed.text).toBe(plain.text)
    await test.request
      .get('/v1/exports/runs')
      .set({ 'accept-encoding': 'gzip', 'if-none-match': packed.headers.etag as string })
      .expect(304)
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
    const from = all.map(({ flown_from }) => String(flown_from)).sort()
    const middle = from[Math.floor(from.length / 2)]!
    const later = all.filter(({ flown_from }) => String(flown_from) >= middle)
    expect(later.length).toBeGreaterThan(0)
    expect(later.length).toBeLessThan(all.length)
    expect(await exported(`&from=${middle}`)).toHaveLength(later.length)
    expect(await exported('&to=1990-12')).toEqual([])
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
    for (let i = 0; i < 12; i++) {
      const asked = get({ port, path: '/v1/exports/runs', agent: false })
      const [answer] = (await once(asked, 'response')) as [IncomingMessage]
      await once(answer, 'data')
      answer.destroy()
    }
    expect(await exported()).toHaveLength(await storedRuns())
    expect(test.db.pool.waitingCount).toBe(0)
    expect(test.db.pool.totalCount).toBeLessThanOrEqual(Math.max(before, 4))
  })

  it('holds what came between the storing of cells and the snapshot', async () => {
    const tables = tablesFor(NewRun)
    const lines = (before: string) =>
      inTransaction(test.db, async (client) => {
        await client.query(before)
        await collectLateEntries(client, tables)
        await anonymise(client, { layout: layoutOf(tables), salt: 'one' })
        return (await client.query<{ head: string; rows: string }>(runsSelect())).rows
      })
    const stored = await lines('SELECT 1')
    const few = 'SELECT id FROM submission_revision ORDER BY id LIMIT 9'
    expect(await lines(`DELETE FROM dataset_entry WHERE revision_id IN (${few})`)).toEqual(stored)
    expect(await lines('DELETE FROM dataset_entry')).toEqual(stored)
  })

  // Found at a million runs: every entry was written anew, the planner expected none, and joined them one by one.
  it('lets the planner know how many entries have a layout that is new', async () => {
    const tables = tablesFor(NewRun)
    await prepareEntries(test.db, tables)
    await test.db.pool.query(
      `UPDATE dataset_entry SET layout = 'an older one';
       INSERT INTO dataset_entry
       SELECT more.* FROM (SELECT * FROM dataset_entry LIMIT 1) entry, generate_series(100, 1100) AS number,
              jsonb_populate_record(NULL::dataset_entry,
                to_jsonb(entry) || jsonb_build_object('entry_index', number)) AS more;
       ANALYZE dataset_entry`,
    )
    const added = await prepareEntries(test.db, tables)
    const { rows } = await test.db.pool.query<{ layouts: string; frequencies: number[] }>(
      `SELECT most_common_vals::text AS layouts, most_common_freqs AS frequencies
         FROM pg_stats WHERE tablename = 'dataset_entry' AND attname = 'layout'`,
    )
    expect(added).toBeGreaterThan(0)
    expect(rows).toEqual([{ layouts: `{${layoutOf(tables)}}`, frequencies: [1] }])
  })

  it('draws keys once for a state of the evidence, also for who ask at once, and filters them', async () => {
    const states = async () =>
      (await test.db.pool.query<{ version: string; salt: string }>('SELECT * FROM export_state'))
        .rows
    await test.db.pool.query(WITHDRAW_ONE)
    const asked = await Promise.all(Array.from({ length: 6 }, () => exported()))
    expect(new Set(asked.map((runs) => JSON.stringify(runs))).size).toBe(1)
    const drawn = await states()
    expect(drawn).toHaveLength(1)
    const all = new Map(asked[0]!.map((run) => [run.run_key, run]))
    for (const run of await exported('&kind=climb&massClass=100to120')) {
      expect(run).toEqual(all.get(run.run_key!))
    }
    expect(await states()).toEqual(drawn)
  })

  it('is whole, with other keys, after a crash has emptied what is not logged', async () => {
    const { rows } = await test.db.pool.query<{ relname: string }>(
      `SELECT relname FROM pg_class WHERE relpersistence = 'u' AND relkind = 'r' ORDER BY relname`,
    )
    expect(rows.map(({ relname }) => relname)).toEqual(['export_state', 'export_unit'])
    const before = await test.request.get('/v1/exports/runs?format=ndjson')
    await test.db.pool.query('TRUNCATE export_state, export_unit') // as PostgreSQL does then
    const after = await test.request
      .get('/v1/exports/runs?format=ndjson')
      .set('if-none-match', before.headers.etag as string)
      .expect(200)
    expect(after.headers.etag).not.toBe(before.headers.etag)
    expect(after.text.split('\n')).toHaveLength(before.text.split('\n').length)
  })

  it('is whole where another version of the service threw away what this one stored', async () => {
    const before = await exported()
    const { all, rawFields } = tablesFor(NewRun)
    const columns = all.runs.columns.map((column) => ({ ...column, title: `New: ${column.title}` }))
    await prepareEntries(test.db, { all: { ...all, runs: { ...all.runs, columns } }, rawFields })
    expect((await test.db.pool.query('SELECT FROM export_state')).rowCount).toBe(0)
    expect(await exported()).toHaveLength(before.length)
  })

  it('holds what had no result of the method of today when keys were drawn, as soon as it has', async () => {
    const before = await exported()
    const { rows } = await test.db.pool.query<{ id: string }>(
      `SELECT id FROM submission WHERE ${COUNTS} ORDER BY id LIMIT 1`,
    )
    const setMethod = (from: string, to: string) =>
      inTransaction(test.db, async (client) => {
        await client.query('SET LOCAL session_replication_role = replica') // results are written once
        await client.query(
          `UPDATE run_result SET method_version = $2
             FROM run JOIN submission_revision revision ON revision.id = run.revision_id
            WHERE run_result.run_id = run.id AND method_version = $1 AND revision.submission_id = $3`,
          [from, to, rows[0]!.id],
        )
      })
    await setMethod(METHOD_VERSION, '0')
    await test.db.pool.query('DELETE FROM dataset_entry')
    const less = await exported()
    expect(less.length).toBeLessThan(before.length)
    await setMethod('0', METHOD_VERSION)
    expect(await exported()).toHaveLength(before.length)
  })

  it('follows the evidence, and draws other keys then', async () => {
    const before = await exported()
    await test.db.pool.query(WITHDRAW_ONE)
    const less = await exported()
    const keys = new Set(before.map(({ pilot_key }) => pilot_key))
    expect(keys.size).toBe(25)
    expect(less.length).toBeLessThan(before.length)
    expect(less.filter(({ pilot_key }) => keys.has(pilot_key!))).toEqual([])
  })
})
