import { join } from 'node:path'

import { afterAll, beforeAll, describe, expect, it } from 'vitest'

import { readCsv } from './csv-file.ts'
import { type DemoRelease, releaseDemo } from './demo-release.ts'

/** What an attacker knows of somebody's flights: who, with which mass, where how high, when, on what. */
interface Known {
  readonly account: string
  readonly setup: string
  readonly massKg: number
  readonly elevationM: number
  readonly day: string
}

const K = 5

let demo: DemoRelease
let runs: Record<string, string>[]
let known: Known[]

beforeAll(async () => {
  demo = await releaseDemo()
  runs = await readCsv(join(demo.folder, 'runs.csv'))
  const { rows } = await demo.db.pool.query<Known>(`
    SELECT DISTINCT submission.account_id::text AS account, run.setup_id::text AS setup,
           (revision.body #>> ARRAY['entries', run.entry_index::text, 'allUpMassKg'])::float8 AS "massKg",
           revision.elevation_m AS "elevationM", revision.flown_on::text AS day
      FROM submission JOIN submission_revision revision ON revision.submission_id = submission.id
      JOIN run ON run.revision_id = revision.id`)
  known = rows
})
afterAll(() => demo.close())

/** The classes, written here a second time on purpose. */
const classOf = (value: number, ends: readonly number[], names: readonly string[]) =>
  names[ends.filter((end) => value >= end).length]!
const massClass = (kg: number) =>
  classOf(kg, [100, 120, 140, 170], ['under100', '100to120', '120to140', '140to170', 'tandem'])
const elevationClass = (m: number) =>
  classOf(m, [300, 800, 1500], ['under300', '300to800', '800to1500', 'over1500'])

/** A row is compatible with a flight where nothing it shows speaks against it. */
function fits(row: Record<string, string>, flight: Known): boolean {
  const shows = (column: string, value: string) => row[column] === '' || row[column] === value
  return (
    shows('all_up_mass_class', massClass(flight.massKg)) &&
    shows('elevation_class', elevationClass(flight.elevationM)) &&
    shows('flown_month', flight.day.slice(0, 7)) &&
    shows('flown_year', flight.day.slice(0, 4))
  )
}

function candidates(flight: Known): Set<string> {
  return new Set(runs.filter((row) => fits(row, flight)).map((row) => row.pilot_key!))
}

describe('an attacker who links by mass, place and date', () => {
  it('is left with five pilots or more for every single flight', () => {
    expect(known.length).toBeGreaterThan(80)
    for (const flight of known) expect(candidates(flight).size).toBeGreaterThanOrEqual(K)
  })

  it('is left with five pilots or more even with every flight of a pilot', () => {
    const pilots = new Set(known.map(({ account }) => account))
    expect(pilots.size).toBe(25)
    for (const account of pilots) {
      const flights = known.filter((flight) => flight.account === account).map(candidates)
      const left = [...flights[0]!].filter((key) => flights.every((keys) => keys.has(key)))
      expect(left.length).toBeGreaterThanOrEqual(K)
    }
  })

  it('would find somebody if the release showed what it holds back', () => {
    const alone = known.filter(({ massKg, elevationM, day }) => {
      const same = known.filter(
        (other) =>
          massClass(other.massKg) === massClass(massKg) &&
          elevationClass(other.elevationM) === elevationClass(elevationM) &&
          other.day.slice(0, 7) === day.slice(0, 7),
      )
      return new Set(same.map(({ account }) => account)).size === 1
    })
    expect(alone.length).toBeGreaterThan(10)
  })
})

describe('the file runs', () => {
  const QUASI = [
    'setup_id',
    'interest',
    'flown_year',
    'flown_month',
    'all_up_mass_class',
    'elevation_class',
    'wing_area_class',
    'air_motion',
  ]

  it('shows no combination that fewer than five pilots share', () => {
    const pilots = new Map<string, Set<string>>()
    for (const row of runs) {
      const shown = QUASI.slice(1).some((column) => row[column] !== '')
      if (!shown) continue
      const combination = QUASI.map((column) => row[column]).join('|')
      pilots.set(combination, (pilots.get(combination) ?? new Set()).add(row.pilot_key!))
    }
    expect(pilots.size).toBeGreaterThan(0)
    for (const [, sharing] of pilots) expect(sharing.size).toBeGreaterThanOrEqual(K)
  })

  it('counts what is suppressed as the release states it', async () => {
    const { body } = await demo.request.get('/v1/datasets').expect(200)
    for (const [column, count] of Object.entries(body.items[0].anonymity.suppressedRuns)) {
      expect(runs.filter((row) => row[column] === '')).toHaveLength(count as number)
    }
  })

  it('holds no account, submission, name, place, day or note', async () => {
    const { rows } = await demo.db.pool.query<{ secret: string }>(`
      SELECT id::text AS secret FROM account UNION SELECT email FROM account
      UNION SELECT display_name FROM account UNION SELECT id::text FROM submission
      UNION SELECT id::text FROM run UNION SELECT flown_on::text FROM submission_revision
      UNION SELECT body #>> '{site,name}' FROM submission_revision`)
    const text = JSON.stringify(runs)
    expect(rows.length).toBeGreaterThan(100)
    expect(rows.filter(({ secret }) => text.includes(secret))).toEqual([])
  })

  it('rounds what was read off to two significant digits', () => {
    for (const row of runs) {
      for (const column of ['duration_s', 'height_gain_m', 'volume_ml', 'rpm']) {
        const digits = (row[column] ?? '').replace(/^-?0*\.?0*/, '').replace('.', '')
        expect(digits.replace(/0+$/, '').length).toBeLessThanOrEqual(2)
      }
    }
  })
})
