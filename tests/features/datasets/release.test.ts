import { createHash } from 'node:crypto'
import { readFile as readLocal } from 'node:fs/promises'
import { join } from 'node:path'
import { gunzipSync } from 'node:zlib'

import { afterAll, beforeAll, describe, expect, it } from 'vitest'

import { readCsv } from './csv-file.ts'
import { type DemoRelease, makeRelease, readFile, releaseDemo } from './demo-release.ts'

let demo: DemoRelease

beforeAll(async () => {
  demo = await releaseDemo()
})
afterAll(() => demo.close())

const url = (name: string) => `/v1/datasets/${demo.releaseId}/${name}`

describe('asking for a release', () => {
  it('needs the role of a researcher, moderator or admin', async () => {
    await demo.request.post('/v1/datasets').expect(401)
    const pilot = await demo.signUp('pilot')
    await demo.request
      .post('/v1/datasets')
      .set('authorization', `Bearer ${pilot.token}`)
      .expect(403)
  })

  it('leads to the release there is, where the evidence is the same', async () => {
    expect(await makeRelease(demo)).toBe(demo.releaseId)
    const { body } = await demo.request.get('/v1/datasets').expect(200)
    expect(body.items).toHaveLength(1)
  })

  it('answers with a place to follow, and the same place to the same key', async () => {
    const { token } = await demo.signUp('moderator')
    const ask = () =>
      demo.request
        .post('/v1/datasets')
        .set({ authorization: `Bearer ${token}`, 'idempotency-key': 'one' })
        .expect(202)
    const first = await ask()
    const second = await ask()
    expect(second.headers.location).toBe(first.headers.location)
    await demo.app.releases.workOff()
    const { body } = await demo.request.get(first.headers.location as string).expect(200)
    expect(body).toMatchObject({ state: 'unchanged', progress: 1, release: demo.releaseId })
  })
})

describe('a release', () => {
  it('is listed with its digest, licence, citation and what privacy cost', async () => {
    const { body } = await demo.request.get('/v1/datasets').expect(200)
    const sums = await readLocal(join(demo.folder, 'SHA256SUMS'))
    expect(body.items[0]).toMatchObject({
      id: demo.releaseId,
      version: 1,
      digest: createHash('sha256').update(sums).digest('hex'),
      licence: 'CC-BY-4.0',
      anonymity: { k: 5, pilots: 25, sessions: 80 },
    })
  })

  it('has the files that its checksums name', async () => {
    const sums = await readLocal(join(demo.folder, 'SHA256SUMS'), 'utf8')
    for (const name of demo.fileNames) {
      const bytes = await readLocal(join(demo.folder, name))
      expect(sums).toContain(`${createHash('sha256').update(bytes).digest('hex')}  ${name}\n`)
    }
  })

  it('cannot be changed, removed or emptied, even in SQL', async () => {
    for (const statement of [
      `UPDATE dataset_release SET summary = '{}'`,
      'DELETE FROM dataset_file',
      `UPDATE dataset_chunk SET bytes = 'x'`,
      'TRUNCATE dataset_chunk',
    ]) {
      await expect(demo.db.pool.query(statement)).rejects.toThrow('written once')
    }
    await expect(
      demo.db.pool.query(`INSERT INTO dataset_chunk VALUES ('\\x00', 'something else')`),
    ).rejects.toThrow('dataset_chunk_name_check')
  })

  it('says in JSON-LD what it is, in a page and as a file', async () => {
    const page = await readLocal(join(demo.folder, 'index.html'), 'utf8')
    const embedded = /<script type="application\/ld\+json">(.*?)<\/script>/s.exec(page)?.[1]
    expect(JSON.parse(embedded ?? '')).toMatchObject({
      '@type': 'Dataset',
      version: demo.releaseId,
      license: 'https://creativecommons.org/licenses/by/4.0/',
    })
  })
})

describe('the table aggregates', () => {
  const aggregates = () => readCsv(join(demo.folder, 'aggregates.csv'))

  it('holds what the ranking of a weight class shows', async () => {
    const { body } = await demo.request
      .get('/v1/rankings?metric=climbRate&massClass=120to140')
      .expect(200)
    const rows = (await aggregates()).filter(
      (row) =>
        row.metric === 'climbRate' &&
        row.variant === 'all' &&
        row.all_up_mass_class === '120to140' &&
        row.rank_median !== '',
    )
    expect(rows).toHaveLength(body.ranked.length)
    for (const { setupId, value, standardUncertainty, evidence } of body.ranked) {
      const row = rows.find(({ setup_id }) => setup_id === setupId)!
      expect(Number(row.estimate)).toBeCloseTo(value, 9)
      expect(Number(row.standard_uncertainty)).toBeCloseTo(standardUncertainty, 9)
      expect(Number(row.sessions)).toBe(evidence.sessions)
    }
  })

  it('says of the same setups and runs what comes of it where misfits count less', async () => {
    const rows = await aggregates()
    const of = (variant: string) =>
      new Map(
        rows
          .filter((row) => row.variant === variant)
          .map((row) => [
            [row.metric, row.quantity, row.all_up_mass_class, row.setup_id].join(),
            row,
          ]),
      )
    const [plain, robust] = [of('all'), of('robust')]
    expect([...robust.keys()]).toEqual([...plain.keys()])
    const moves = [...plain].map(([key, { estimate, standard_uncertainty: u, runs }]) => {
      const again = robust.get(key)!
      expect(again.runs).toBe(runs)
      return estimate === '' || again.estimate === ''
        ? 0
        : Math.abs(Number(again.estimate) - Number(estimate)) / Number(u)
    })
    // The demo has no gross slips: the two readings agree, and are not one and the same.
    expect(Math.max(...moves)).toBeGreaterThan(0)
    expect(Math.max(...moves)).toBeLessThan(1)
  })
})

describe('a file of a release', () => {
  it('comes with its hash as ETag, a name to save it by and leave to keep it', async () => {
    const answer = await demo.request.get(url('setups.csv')).set('accept-encoding', 'identity')
    const bytes = await readLocal(join(demo.folder, 'setups.csv'))
    expect(answer.headers).toMatchObject({
      etag: `"${createHash('sha256').update(bytes).digest('hex')}"`,
      'content-disposition': `attachment; filename="fairclimb-${demo.releaseId}-setups.csv"`,
      'accept-ranges': 'bytes',
      'content-length': String(bytes.length),
    })
    expect(answer.headers['cache-control']).toContain('immutable')
    await demo.request
      .get(url('setups.csv'))
      .set('if-none-match', answer.headers.etag as string)
      .expect(304)
  })

  it.each([
    ['bytes=0-9', 0, 10],
    ['bytes=100-', 100, undefined],
    ['bytes=-20', -20, undefined],
  ])('in part: %s', async (range, from, to) => {
    const bytes = await readLocal(join(demo.folder, 'runs.csv'))
    const answer = await demo.request.get(url('runs.csv')).set('range', range).expect(206)
    const part = bytes.subarray(from, to)
    expect(answer.text).toBe(part.toString('utf8'))
    const first = from < 0 ? bytes.length + from : from
    expect(answer.headers['content-range']).toBe(
      `bytes ${first}-${first + part.length - 1}/${bytes.length}`,
    )
  })

  it('is refused where the range lies behind its end, and whole where it is of another version', async () => {
    const { body, headers } = await demo.request
      .get(url('runs.csv'))
      .set('range', 'bytes=99999999-')
      .expect(416)
    expect(body.type).toBe('/problems/range-not-satisfiable')
    expect(headers['content-range']).toMatch(/^bytes \*\/\d+$/)
    await demo.request
      .get(url('runs.csv'))
      .set({ range: 'bytes=0-9', 'if-range': '"another"' })
      .expect(200)
  })

  it('is compressed where that helps and the caller takes it', async () => {
    const answer = await demo.request
      .get(url('runs.csv'))
      .set('accept-encoding', 'gzip')
      .buffer(true)
      .parse((response, done) => {
        const parts: Buffer[] = []
        response.on('data', (part: Buffer) => parts.push(part))
        response.on('end', () => done(null, Buffer.concat(parts)))
      })
      .expect(200)
    const bytes = await readLocal(join(demo.folder, 'runs.csv'))
    const isPacked = answer.body[0] === 0x1f && answer.body[1] === 0x8b
    expect(isPacked ? gunzipSync(answer.body) : answer.body).toEqual(bytes)
    expect(answer.headers['content-encoding']).toBe('gzip')
    expect(answer.headers.etag).toMatch(/-gzip"$/)
  })

  it('that is not there, and a release that is not, are told apart', async () => {
    const file = await demo.request.get(url('nothing.csv')).expect(404)
    const release = await demo.request.get('/v1/datasets/2001-01-01.1/runs.csv').expect(404)
    expect(file.body.detail).toContain('has no file nothing.csv')
    expect(release.body.detail).toContain('There is no release')
  })
})

// Last: it changes the evidence.
describe('the next release', () => {
  it('says what changed, has other keys, and leaves the first one as it was', async () => {
    const before = await readFile(demo, demo.releaseId, 'runs.csv')
    await demo.db.pool.query(
      `UPDATE submission SET withdrawn_at = now() WHERE id = (SELECT min(id::text)::uuid FROM submission)`,
    )
    await demo.app.fits.refresh()
    const next = await makeRelease(demo)
    expect(next).not.toBe(demo.releaseId)
    const { body } = await demo.request.get('/v1/datasets?limit=1').expect(200)
    expect(body.items[0].changes).toContain('79 sessions (−1).')
    const older = await demo.request.get(`/v1/datasets?cursor=${body.nextCursor}`).expect(200)
    expect(older.body.items[0].id).toBe(demo.releaseId)

    const runs = await readFile(demo, next, 'runs.csv')
    const pilots = (file: Buffer) => new Set(file.toString().match(/\bp[0-9a-f]{16}\b/g))
    const shared = [...pilots(runs)].filter((key) => pilots(before).has(key))
    expect(pilots(runs).size).toBeGreaterThan(20)
    expect(shared).toEqual([])
    expect(await readFile(demo, demo.releaseId, 'runs.csv')).toEqual(before)
  })
})
