import type { BrowserContext, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'

import { CHROMIUM, WITHOUT } from './chromium.ts'
import { fillIn, METRIC, openStage, type Person, type Stage, signUpOn, tokenOf } from './stage.ts'

interface Stored {
  readonly id: string
  readonly site: { readonly name: string }
  readonly entries: readonly {
    readonly runs: readonly { readonly normalized: { readonly value: number } }[]
  }[]
}

describe.skipIf(CHROMIUM === null)(`a pilot at a field without a network${WITHOUT}`, () => {
  let stage: Stage
  let context: BrowserContext
  let page: Page
  let person: Person
  let shown = ''

  beforeAll(async () => {
    stage = await openStage()
    context = await stage.context()
    page = await context.newPage()
    person = await signUpOn(page)
    // At home, once: the pages and the catalogue come along.
    await page.goto('/submit')
    await page.evaluate(() => navigator.serviceWorker.ready)
    await page.reload({ waitUntil: 'networkidle' })
  })

  afterAll(() => stage?.close())

  const stored = async () => {
    const token = await tokenOf(stage, person)
    const { items } = await stage.read<{ items: Stored[] }>('/v1/submissions?mine=true', token)
    return items
  }

  it('opens the form, reads the result while typing, and keeps the draft in a closed tab', async () => {
    await stage.goOffline(context)
    await page.reload()
    await fillIn(page, METRIC)
    const result = page.getByTestId('run-result')
    await result.waitFor()
    shown = (await result.textContent())!
    expect(shown).toMatch(/Climb rate at 120 kg[\s\S]*± [\d.]+ with 95 %/)
    await page.getByText('Kept on this device.').waitFor()
    await page.close()
    page = await context.newPage()
    await page.goto('/submit')
    expect(await page.getByLabel('Field', { exact: true }).inputValue()).toBe(METRIC.field)
    expect(await page.getByLabel('Time', { exact: true }).inputValue()).toBe(METRIC.time)
  })

  it('sends: it waits on the device, also in a closed tab', async () => {
    await page.getByRole('button', { name: 'Send', exact: true }).click()
    await page.getByTestId('outbox-item').getByText('Waiting to be sent').waitFor()
    await page.close()
    page = await context.newPage()
    await page.goto('/submit')
    await page.getByTestId('outbox-item').getByText('Waiting to be sent').waitFor()
    expect(await stored()).toEqual([])
  })

  it('arrives once when the network is back, though the first answer is lost on the way', async () => {
    let attempts = 0
    await context.route('**/v1/submissions', async (route) => {
      attempts += 1
      if (attempts > 1) return route.continue()
      await route.fetch() // the service has it, the page does not know
      return route.abort('connectionreset')
    })
    await stage.goOnline(context)
    await expect.poll(() => attempts, { timeout: 60_000 }).toBe(1)
    await page.getByRole('button', { name: 'Try to send now' }).click()
    await page.getByTestId('arrived').waitFor()
    expect(attempts).toBe(2)
    const items = await stored()
    expect(items.map(({ site }) => site.name)).toEqual([METRIC.field])
    // What the page worked out by itself is what the service stored.
    const { value } = items[0]!.entries[0]!.runs[0]!.normalized
    expect(shown).toContain(`${value.toFixed(2)} m/s`)
  })

  it('is offered the same place, mass and wing next time', async () => {
    await page.reload()
    expect(await page.getByLabel('Field', { exact: true }).inputValue()).toBe(METRIC.field)
    expect(await page.getByLabel('Pilot with clothing').inputValue()).toBe(METRIC.pilot)
    expect(await page.getByLabel('Flat area of the wing').inputValue()).toBe(METRIC.area)
    expect(await page.getByLabel('Air temperature').inputValue()).toBe('')
  })
})
