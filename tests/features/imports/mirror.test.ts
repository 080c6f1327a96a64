import { readFile } from 'node:fs/promises'
import { join } from 'node:path'

import { afterAll, beforeAll, describe, expect, it } from 'vitest'

import { startTestApp, type TestAccount, type TestApp } from '../../support/app.ts'
import { type DemoRelease, makeRelease, releaseDemo } from '../datasets/demo-release.ts'
import { type Desk, startDesk } from '../submissions/desk.ts'
import { faultsOf, sendCsv } from './notebook-file.ts'

type Files = Readonly<Record<string, Buffer>>

const PARTS = ['runs', 'systematic', 'setups', 'components']

/** The server that publishes, and one with an empty database that mirrors it. */
let origin: DemoRelease
let mirror: TestApp
let moderator: TestAccount
let files: Files

beforeAll(async () => {
  origin = await releaseDemo()
  mirror = await startTestApp()
  moderator = await mirror.signUp('moderator')
  files = Object.fromEntries(
    await Promise.all(
      PARTS.map(async (part) => [part, await readFile(join(origin.folder, `${part}.csv`))]),
    ),
  )
}, 180_000) // two servers and the demo
afterAll(async () => {
  await mirror.close()
  await origin.close()
})

function send(
  test: TestApp | Desk,
  parts: Files,
  { token }: Pick<TestAccount, 'token'>,
  query = '',
) {
  const asked = test.request.post(`/v1/imports${query}`).set('authorization', `Bearer ${token}`)
  for (const [part, bytes] of Object.entries(parts)) {
    asked.attach(part, bytes, { filename: `${part}.csv`, contentType: 'text/csv' })
  }
  return asked
}

const changed = (part: string, from: string | RegExp, to: string): Files => ({
  ...files,
  [part]: Buffer.from(files[part]!.toString('utf8').replace(from, to)),
})

const ranking = async (test: TestApp, query: string) => {
  await test.app.fits.refresh()
  return (await test.request.get(`/v1/rankings?${query}`).expect(200)).body
}

const countOf = async (test: TestApp, table: string) => {
  const { rows } = await test.db.pool.query(`SELECT count(*)::int AS count FROM ${table}`)
  return rows[0].count
}

describe('a release that another server takes in', () => {
  it('needs the role of a moderator', async () => {
    const pilot = await mirror.signUp()
    await send(mirror, files, pilot).expect(403)
  })

  it('needs its systematic effects, for intervals would be too narrow', async () => {
    const { body } = await sendCsv(mirror, files.runs!, moderator).expect(422)
    expect(faultsOf(body)[0]).toContain('send multipart/form-data')
  })

  it('needs what its set-ups are made of, where they are not known', async () => {
    const { runs, systematic, setups } = files as Record<string, Buffer>
    const alone = await send(mirror, { runs: runs!, systematic: systematic! }, moderator).expect(
      422,
    )
    expect(alone.body.errors[0]).toMatchObject({ file: 'runs', column: 'setup_id' })
    expect(alone.body.errors[0].detail).toContain('send the files setups and components')
    const parts = { runs: runs!, systematic: systematic!, setups: setups! }
    const { body } = await send(mirror, parts, moderator).expect(422)
    expect(body.errors[0].file).toBe('setups')
    expect(body.errors[0].column).toMatch(/^(powerplant|propeller|frame)_id$/)
  })

  it('is told each fault with file, row and column, and leaves nothing', async () => {
    const broken = {
      ...changed('runs', /,climb,/, ',glide!,'),
      ...{ systematic: changed('systematic', /\r\n[^,]+,/, '\r\nno-run,').systematic! },
    }
    const { body } = await send(mirror, broken, moderator).expect(422)
    expect(body.errors).toMatchObject([{ file: 'runs', column: 'kind' }])
    const loose = await send(mirror, { ...broken, runs: files.runs! }, moderator).expect(422)
    expect(loose.body.errors).toMatchObject([{ file: 'systematic', row: 2, column: 'run_key' }])
    for (const table of ['data_import', 'mirrored_run', 'setup', 'component', 'report']) {
      expect(await countOf(mirror, table), table).toBe(0)
    }
  })

  it.each(['method_version', 'reference_id'])('of another %s is refused', async (column) => {
    const rows = files.runs!.toString('utf8').split('\r\n')
    const place = rows[0]!.split(',').indexOf(column)
    const cells = rows[1]!.split(',')
    const other = [...cells.slice(0, place), '0', ...cells.slice(place + 1)].join(',')
    const runs = Buffer.from([rows[0], other, ...rows.slice(2)].join('\r\n'))
    const { body } = await send(mirror, { ...files, runs }, moderator).expect(422)
    expect(body.errors).toMatchObject([{ file: 'runs', row: 2, column }])
  })

  it('gives the ranking of the server it came from', async () => {
    const { body } = await send(mirror, files, moderator).expect(201)
    expect(body).toMatchObject({ kind: 'release', sessions: 80, pilots: 25 })
    expect(body.rows).toBe(await countOf(mirror, 'mirrored_run'))

    for (const query of [
      'metric=climbRate&massClass=100to120',
      'metric=fuelFlow&massClass=120to140',
      'metric=staticThrust&massClass=100to120',
    ]) {
      const there = await ranking(origin, query)
      const here = await ranking(mirror, query)
      const ids = (answer: typeof here) =>
        answer.ranked.map(({ setupId }: { setupId: string }) => setupId)
      expect(ids(here), query).toEqual(ids(there))
      expect(ids(here).length).toBeGreaterThan(2)
      here.ranked.forEach((item: (typeof here.ranked)[number], i: number) => {
        const same = there.ranked[i]
        expect(Math.abs(item.value - same.value) / same.standardUncertainty).toBeLessThan(1e-6)
        expect(item.standardUncertainty / same.standardUncertainty).toBeCloseTo(1, 6)
        const { interestedSessions, ...evidence } = same.evidence
        expect(item.evidence).toMatchObject(evidence)
        // What was suppressed is not claimed to be an interest.
        expect(item.evidence.interestedSessions).toBeLessThanOrEqual(interestedSessions)
      })
      expect(here.setAside).toEqual(there.setAside)
    }
  })

  it('leaves out with the interested whatever does not say that it is none', async () => {
    const { rows } = await mirror.db.pool.query(
      `SELECT count(DISTINCT session_id)::int AS sessions FROM mirrored_run
        WHERE quantity = 'inducedPower' AND interested IS NOT FALSE`,
    )
    expect(rows[0].sessions).toBeGreaterThan(0)
    const query = 'metric=climbRate&massClass=100to120'
    const all = await ranking(mirror, query)
    const without = await ranking(mirror, `${query}&excludeInterested=true`)
    const runs = ({ ranked, unranked }: typeof all) =>
      [...ranked, ...unranked].reduce((sum, { evidence }) => sum + evidence.runs, 0)
    expect(runs(without)).toBeLessThan(runs(all))
  })

  it('adds nothing the second time', async () => {
    const before = await countOf(mirror, 'mirrored_run')
    const { body } = await send(mirror, files, moderator).expect(200)
    expect(body.kind).toBe('release')
    expect(await countOf(mirror, 'mirrored_run')).toBe(before)
  })

  it('does not count again out of another export of the same sessions', async () => {
    const { body: csv, text } = await origin.request.get('/v1/exports/runs?format=csv').expect(200)
    const runs = Buffer.from(text ?? csv)
    expect(runs.equals(files.runs!)).toBe(false)
    const header = 'run_key,cause,reach,effect\r\n'
    const { body } = await send(
      mirror,
      { runs, systematic: Buffer.from(header) },
      moderator,
    ).expect(409)
    expect(body.detail).toMatch(/sessions count already through import/)
  })

  it('gives way to a newer one of the same server', async () => {
    const { body: page } = await mirror.request
      .get('/v1/imports')
      .set('authorization', `Bearer ${moderator.token}`)
      .expect(200)
    const [first] = page.items
    const runs = Buffer.concat([files.runs!, Buffer.from('\r\n')]) // other bytes, the same runs
    await send(mirror, { ...files, runs }, moderator).expect(409)
    const { body } = await send(
      mirror,
      { ...files, runs },
      moderator,
      `?replaces=${first.id}`,
    ).expect(201)
    expect(body).toMatchObject({ replaces: first.id, setupsAdded: [], componentsAdded: [] })
    const here = await ranking(mirror, 'metric=climbRate&massClass=100to120')
    const there = await ranking(origin, 'metric=climbRate&massClass=100to120')
    expect(here.ranked[0].evidence.runs).toBe(there.ranked[0].evidence.runs)
    await send(mirror, { ...files, runs: files.runs! }, moderator, `?replaces=${first.id}`).expect(
      422,
    )
  })

  it('stays out of what this server publishes itself', async () => {
    const id = await makeRelease(mirror)
    const { body } = await mirror.request.get('/v1/datasets').expect(200)
    expect(body.items[0]).toMatchObject({ id, setups: 0, anonymity: { runs: 0 } })
  })

  it('can be withdrawn by a moderator, and then nothing of it counts', async () => {
    const { body: page } = await mirror.request
      .get('/v1/imports')
      .set('authorization', `Bearer ${moderator.token}`)
      .expect(200)
    const { id } = page.items[0]
    const pilot = await mirror.signUp()
    const as = ({ token }: TestAccount) => ({ authorization: `Bearer ${token}` })
    await mirror.request.delete(`/v1/imports/${id}`).set(as(pilot)).expect(403)
    await mirror.request.delete(`/v1/imports/${id}`).set(as(moderator)).expect(204)
    await mirror.request.delete(`/v1/imports/${id}`).set(as(moderator)).expect(204)
    const shown = await mirror.request.get(`/v1/imports/${id}`).set(as(pilot)).expect(200)
    expect(shown.body.withdrawnAt).not.toBeNull()
    const here = await ranking(mirror, 'metric=climbRate&massClass=100to120')
    expect(here.ranked).toEqual([])
  })
})

describe('a release of this very server', () => {
  it('is refused as its file, and as an export of the same runs', async () => {
    const admin = await origin.signUp('admin')
    const own = await send(origin, files, admin).expect(409)
    expect(own.body.detail).toContain(`release ${origin.releaseId} of this server`)
    const runs = Buffer.concat([files.runs!, Buffer.from('\r\n')])
    const { body } = await send(origin, { ...files, runs }, admin).expect(409)
    expect(body.detail).toMatch(/sessions were submitted to this server/)
  })
})

describe('set-ups of a release', () => {
  it('become those that the catalogue has under other ids', async () => {
    const other = await startDesk()
    try {
      const admin = await other.signUp('admin')
      await insertComponents(other, await partsUnderOtherIds())
      const before = await countOf(other, 'component')
      const { body } = await send(other, files, admin).expect(201)
      expect(body.componentsAdded).toEqual([])
      expect(await countOf(other, 'component')).toBe(before)
      expect(body.setupsAdded.length).toBe(await countOf(other, 'setup'))
    } finally {
      await other.close()
    }
  })

  it('that must not be flown there must not be flown here, until somebody here lifts it', async () => {
    const other = await startDesk()
    try {
      const admin = await other.signUp('admin')
      const grounded = changed('setups', /,none\r\n/, ',doNotFly\r\n')
      const [id] = /[0-9a-f-]{36}(?=,[^\r]*,doNotFly)/.exec(grounded.setups!.toString('utf8'))!
      const { body } = await send(other, grounded, admin).expect(201)
      expect(body.cautions.join()).toContain(`Do not fly set-up ${id}`)
      const setup = await other.request.get(`/v1/setups/${id}`).expect(200)
      expect(setup.body.safety.state).toBe('doNotFly')
      const reviews = await other.request
        .get('/v1/reviews')
        .set('authorization', `Bearer ${admin.token}`)
        .expect(200)
      expect(reviews.body.items.map((item: { setupId: string }) => item.setupId)).toContain(id)
    } finally {
      await other.close()
    }
  })

  it('bring no part back into the air that was grounded here', async () => {
    const other = await startDesk()
    try {
      const admin = await other.signUp('admin')
      const parts = await partsUnderOtherIds()
      await insertComponents(other, parts)
      const [powerplant, propeller, frame] = ['powerplant', 'propeller', 'frame'].map(
        (kind) => parts.find((part) => part.kind === kind).id,
      )
      const ids = { powerplantId: powerplant, propellerId: propeller, frameId: frame }
      await as(other, admin, '/v1/setups', ids).expect(201)
      const unsafe = { componentId: powerplant, kind: 'unsafe', text: 'The hub cracks.' }
      const { body: report } = await as(other, admin, '/v1/reports', unsafe).expect(201)
      const decision = { decision: 'doNotFly', reason: 'Seen on three of them.' }
      await as(other, admin, `/v1/reviews/${report.id}/decisions`, decision).expect(201)

      const { body } = await send(other, files, admin).expect(201)
      const { rows } = await other.db.pool.query(
        'SELECT id FROM setup WHERE powerplant_id = $1 AND id = ANY ($2::uuid[])',
        [powerplant, body.setupsAdded],
      )
      expect(rows.length).toBeGreaterThan(0)
      for (const { id } of rows) {
        const setup = await other.request.get(`/v1/setups/${id}`).expect(200)
        expect(setup.body.safety.state).toBe('doNotFly')
      }
    } finally {
      await other.close()
    }
  })
})

function as(test: Desk, { token }: Pick<TestAccount, 'token'>, path: string, body: object) {
  return test.request.post(path).set('authorization', `Bearer ${token}`).send(body)
}

async function insertComponents(test: Desk, parts: readonly object[]): Promise<void> {
  await test.db.pool.query(
    `INSERT INTO component SELECT (jsonb_populate_record(NULL::component, part)).*
       FROM jsonb_array_elements($1::jsonb) part`,
    [JSON.stringify(parts)],
  )
}

/** The components of the release as another server may have entered them. */
async function partsUnderOtherIds() {
  const { rows } = await origin.db.pool.query(
    `SELECT to_jsonb(component) || jsonb_build_object('id', gen_random_uuid(), 'maker', upper(maker),
            'created_by_id', NULL) AS part
       FROM component WHERE kind <> 'wing' AND merged_into_id IS NULL`,
  )
  return rows.map(({ part }) => part)
}
