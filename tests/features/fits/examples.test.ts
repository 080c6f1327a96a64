import { afterAll, beforeAll, describe, it } from 'vitest'

import { Pcg32 } from '../../../src/core/random/pcg32.ts'
import { exampleKeeper } from '../../support/example.ts'
import { type Field, openField } from '../comparisons/evenings.ts'

let field: Field

/** Ids in a fixed order, so that lists in the order of ids read the same in every run. */
const idOf = (number: number) => `5e7a9d10-0000-4000-8000-${String(number).padStart(12, '0')}`

const ENGINES = ['M-140', 'M-185']
const PROPELLERS = ['Sweep', 'Sweep carbon']
/** Seconds for 100 m and for half a litre, by engine and propeller. */
const CLIMB = [
  [50, 47],
  [44, 40],
]
const BURN = [
  [560, 580],
  [500, 525],
]

const setupOf = (engine: number, propeller: number) => idOf(11 + 2 * engine + propeller)

beforeAll(async () => {
  field = await openField(4)
  const { pool } = field.db
  await pool.query(
    `INSERT INTO component (id, kind, maker, model, drive, diameter_cm) VALUES
       ($1, 'powerplant', 'Marrow Engines', $6, 'twoStroke', NULL),
       ($2, 'powerplant', 'Marrow Engines', $7, 'twoStroke', NULL),
       ($3, 'propeller', 'Tallis Propellers', $8, NULL, 125),
       ($4, 'propeller', 'Tallis Propellers', $9, NULL, 130),
       ($5, 'frame', 'Osier Frames', 'Hoop', NULL, NULL)`,
    [...[1, 2, 3, 4, 5].map(idOf), ...ENGINES, ...PROPELLERS],
  )
  const pairs = [0, 1].flatMap((engine) => [0, 1].map((propeller) => [engine, propeller] as const))
  for (const [engine, propeller] of pairs) {
    await pool.query(
      'INSERT INTO setup (id, powerplant_id, propeller_id, frame_id) VALUES ($1, $2, $3, $4)',
      [setupOf(engine, propeller), idOf(1 + engine), idOf(3 + propeller), idOf(5)],
    )
  }
  const random = new Pcg32(41)
  const around = (value: number) =>
    [0, 1].map(() => Number((value * (1 + 0.015 * random.normal())).toFixed(1)))
  for (let evening = 0; evening < 12; evening++) {
    const flown = pairs
      .filter((_, place) => (place + evening) % 4 !== 0)
      .map(([engine, propeller]) => ({
        setupId: setupOf(engine, propeller),
        climbsS: around(CLIMB[engine]![propeller]!),
        burnsS: around(BURN[engine]![propeller]!),
      }))
    await field.fly(evening % 4, flown)
  }
  await field.app.fits.refresh()
})

afterAll(() => field?.close())

describe('the examples of the API', () => {
  it('are what the evidence says of four setups', async () => {
    const show = exampleKeeper(field)
    const [small, large] = [setupOf(0, 0), setupOf(1, 1)]
    const { fitId } = await show({
      operationId: 'compareSetups',
      method: 'get',
      path: `/v1/comparisons?metric=climbRate&massClass=100to120&setups=${small},${large}`,
    })
    await show({ operationId: 'readFit', method: 'get', path: `/v1/fits/${fitId}` })
    await show({
      operationId: 'rankSetups',
      method: 'get',
      path: '/v1/rankings?metric=fuelFlow&allUpMassKg=115&limit=2',
    })
    await show({
      operationId: 'attributeDifference',
      method: 'get',
      path: `/v1/attributions?metric=climbRate&from=${small}&to=${large}`,
    })
    await show({
      operationId: 'weighTradeOff',
      method: 'get',
      path: '/v1/trade-offs?elevationM=300&temperatureC=20',
    })
  })
})
