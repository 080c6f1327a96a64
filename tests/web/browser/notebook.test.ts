import type { Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'

import { type Cells, CLIMB, csvOf, EVENING } from '../../features/imports/notebook-file.ts'
import { CHROMIUM, WITHOUT } from './chromium.ts'
import { faultsOf } from './inspect.ts'
import { openStage, type Person, type Stage, signUpOn, tokenOf } from './stage.ts'

describe.skipIf(CHROMIUM === null)(`a club with an old notebook${WITHOUT}`, () => {
  let stage: Stage
  let page: Page
  let person: Person
  let setup: string

  beforeAll(async () => {
    stage = await openStage()
    page = await (await stage.context()).newPage()
    const { items } = await stage.read<{ items: { id: string }[] }>('/v1/setups?limit=1')
    setup = items[0]!.id
  })

  afterAll(() => stage?.close())

  const stored = async () => {
    const token = await tokenOf(stage, person)
    return (await stage.read<{ items: unknown[] }>('/v1/submissions?mine=true', token)).items.length
  }

  async function send(rows: readonly Cells[]): Promise<void> {
    const buffer = Buffer.from(csvOf(rows.map((row) => ({ setup_id: setup, ...row }))))
    await page
      .getByLabel('Your notebook')
      .setInputFiles({ name: 'notebook.csv', mimeType: 'text/csv', buffer })
    await page.getByRole('button', { name: 'Send the notebook' }).click()
  }

  const row = (cells: Cells): Cells => ({ ...EVENING, ...CLIMB, ...cells })

  it('is asked to sign in first', async () => {
    await page.goto('/data')
    await page.getByRole('main').getByRole('link', { name: 'Sign in' }).waitFor()
    expect(await page.getByLabel('Your notebook').count()).toBe(0)
    person = await signUpOn(page)
    await page.goto('/data')
  })

  it('reads what is wrong by row and column, and nothing is taken', async () => {
    await send([row({}), row({ duration_s: 'soon' }), row({ session: 'Two', height_gain_m: -5 })])
    const faults = page.getByRole('table').filter({ hasText: 'duration_s' })
    await faults.getByRole('row', { name: /^Row 3 duration_s/ }).waitFor()
    await faults.getByRole('row', { name: /^Row 4 height_gain_m/ }).waitFor()
    expect(await faultsOf(page, 'a notebook with faults')).toEqual([])
    expect(await stored()).toBe(0)
  })

  it('has all of it taken in, once', async () => {
    const rows = [
      row({}),
      row({ duration_s: 56 }),
      row({ session: 'Two', flown_on: '2026-05-18', duration_s: 61 }),
    ]
    await send(rows)
    await page.getByText('Taken in: 2 sessions, from 3 runs in the file.').waitFor()
    expect(await faultsOf(page, 'a notebook that was taken in')).toEqual([])
    expect(await stored()).toBe(2)
    await page.reload()
    await send(rows)
    await page.getByText('Taken in: 2 sessions, from 3 runs in the file.').waitFor() // as it was answered then
    await send(rows.slice(0, 2)) // another file, nothing new in it
    await page.getByText('All of it was here already.').waitFor()
    expect(await stored()).toBe(2)
  })

  it('is told where there is no connection', async () => {
    await stage.goOffline(page.context())
    await send([row({ session: 'Three', flown_on: '2026-05-19' })])
    await page.getByText('There is no connection to the service. Send it again').waitFor()
    await stage.goOnline(page.context())
    await page.getByRole('button', { name: 'Send the notebook' }).click()
    await page.getByText('Taken in: 1 session, from 1 run in the file.').waitFor()
    expect(await stored()).toBe(3)
  })
})
