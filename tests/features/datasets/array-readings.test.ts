import { mkdtemp, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'

import { DuckDBInstance } from '@duckdb/node-api'
import { afterAll, beforeAll, expect, it } from 'vitest'

import { type Desk, LEVEL_SPEED, scenarioA, startDesk } from '../submissions/desk.ts'
import { readCsv } from './csv-file.ts'
import { makeRelease, readFile } from './demo-release.ts'

const FILES = ['runs.csv', 'systematic.csv', 'setups.csv', 'components.csv', 'runs.parquet']
const PILOTS = 6

/** The legs of LEVEL_SPEED to two significant digits. */
const ROUNDED = [
  { trackDeg: 12, groundSpeedMps: 12 },
  { trackDeg: 130, groundSpeedMps: 10 },
  { trackDeg: 250, groundSpeedMps: 13 },
]

let origin: Desk
let folder: string
let speeds: number[]
let rows: Record<string, string>[]

/** Pilots who each fly a level run of three legs, and a release of it. */
beforeAll(async () => {
  origin = await startDesk()
  const setupId = await origin.setup()
  speeds = []
  for (let pilot = 0; pilot < PILOTS; pilot++) {
    const { token } = await origin.signUp()
    const { body } = await origin.request
      .post('/v1/submissions')
      .set('authorization', `Bearer ${token}`)
      .send(scenarioA(setupId, [LEVEL_SPEED]))
      .expect(201)
    speeds.push(body.entries[0].runs[0].normalized.value)
  }
  const release = await makeRelease(origin)
  folder = await mkdtemp(join(tmpdir(), 'fairclimb-legs-'))
  for (const name of FILES) {
    await writeFile(join(folder, name), await readFile(origin, release, name))
  }
  rows = await readCsv(join(folder, 'runs.csv'))
}, 120_000)
afterAll(async () => {
  await rm(folder, { recursive: true, force: true })
  await origin.close()
})

it('stand in one column as a list, rounded like all readings, beside the result, which is not', () => {
  expect(rows).toHaveLength(PILOTS)
  for (const { kind, legs } of rows) {
    expect(kind).toBe('levelSpeed')
    expect(JSON.parse(legs!)).toEqual(ROUNDED)
  }
  expect(rows.map(({ normalized_value }) => Number(normalized_value)).sort()).toEqual(speeds.sort())
})

it('are the same list in Parquet, read by DuckDB', async () => {
  const duck = await (await DuckDBInstance.create()).connect()
  const answer = await duck.runAndReadAll(
    `SELECT legs, json_array_length(legs), json_extract(legs, '$[1].trackDeg')::int
       FROM read_parquet('${join(folder, 'runs.parquet')}')`,
  )
  for (const [legs, count, track] of answer.getRows()) {
    expect(JSON.parse(String(legs))).toEqual(ROUNDED)
    expect([Number(count), track]).toEqual([3, 130])
  }
})

it('reach a server that mirrors the release, with the same result', async () => {
  const mirror = await startDesk()
  try {
    const { token } = await mirror.signUp('moderator')
    const asked = mirror.request.post('/v1/imports').set('authorization', `Bearer ${token}`)
    for (const name of FILES.filter((file) => file.endsWith('.csv'))) {
      const options = { filename: name, contentType: 'text/csv' }
      asked.attach(name.replace('.csv', ''), join(folder, name), options)
    }
    await asked.expect(201)
    const { rows: mirrored } = await mirror.db.pool.query(
      `SELECT as_released ->> 'legs' AS legs, (as_released ->> 'normalized_value')::float8 AS value
         FROM mirrored_run`,
    )
    expect(mirrored.map(({ value }) => value).sort()).toEqual(speeds.sort())
    for (const { legs } of mirrored) expect(JSON.parse(legs)).toEqual(ROUNDED)
  } finally {
    await mirror.close()
  }
})
