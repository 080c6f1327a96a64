import { afterAll, beforeAll, expect, it } from 'vitest'

import { loadDemo } from '../../../src/demo/load.ts'
import {
  type MakeFits,
  makeRelease,
  type Workshop,
} from '../../../src/features/datasets/release/make.ts'
import { tablesFor } from '../../../src/features/datasets/tables/tables.ts'
import { NewRun } from '../../../src/features/submissions/run-kinds.ts'
import { startTestApp, type TestApp } from '../../support/app.ts'

let test: TestApp

beforeAll(async () => {
  test = await startTestApp()
  await loadDemo(test.db)
})
afterAll(() => test.close())

/** Makes a release with fits that are not those of its evidence; it ends before anything is ranked. */
function releaseWith(falsified: (makeFits: MakeFits) => MakeFits) {
  const fitsIn: Workshop['fitsIn'] = async (client) => falsified(await test.app.fits.fitsIn(client))
  const workshop = { db: test.db, tables: tablesFor(NewRun), fitsIn } as Workshop
  return makeRelease(workshop, async () => {})
}

it('publishes nothing where runs of a metric are in the files and in no fit', async () => {
  const release = releaseWith(
    (makeFits) => async (quantity, variants) =>
      quantity === 'fuelFlow' ? variants.map(() => null) : makeFits(quantity, variants),
  )
  await expect(release).rejects.toThrow(/fuelFlow: the files would hold \d+ runs, the fit has 0/)
})

it('publishes nothing where a fit has runs that are in no file', async () => {
  const release = releaseWith(
    (makeFits) => (quantity, variants) =>
      makeFits(quantity === 'electricPower' ? 'fuelFlow' : quantity, variants),
  )
  await expect(release).rejects.toThrow(
    /electricPower: the files would hold 0 runs, the fit has \d+/,
  )
  const { rows } = await test.db.pool.query('SELECT id FROM dataset_release')
  expect(rows).toEqual([])
})
