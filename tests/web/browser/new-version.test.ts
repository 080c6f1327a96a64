import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'

import type { BrowserContext, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'

import { CHROMIUM, WITHOUT } from './chromium.ts'
import { buildAgain, type Front, openFront } from './second-build.ts'
import { fillIn, METRIC, openStage, type Person, type Stage, signUpOn, tokenOf } from './stage.ts'

const OLD = 'no advertising, no trackers'
const NEW = 'neither advertising nor trackers'

interface Stored {
  readonly site: { readonly name: string }
}

describe.skipIf(CHROMIUM === null)(`a new version while a draft is open${WITHOUT}`, () => {
  let stage: Stage
  let front: Front
  let folder: string
  let context: BrowserContext
  let page: Page
  let other: Page
  let person: Person

  beforeAll(async () => {
    folder = await mkdtemp(join(tmpdir(), 'fairclimb-second-build-'))
    await buildAgain(folder, [OLD, NEW])
    stage = await openStage()
    front = await openFront(stage.url)
    context = await stage.context({ baseURL: front.url })
    page = await context.newPage()
    person = await signUpOn(page)
    await page.goto('/submit')
    await page.evaluate(() => navigator.serviceWorker.ready)
    await page.reload({ waitUntil: 'networkidle' })
    other = await context.newPage()
    await other.goto('/compare')
    await fillIn(page, METRIC)
  }, 120_000)

  afterAll(async () => {
    await front?.close()
    await stage?.close()
    await rm(folder, { recursive: true, force: true })
  })

  const told = (of: Page) => of.getByText('A newer version of these pages is there.')
  const isNew = async (of: Page) => (await of.locator('footer').textContent())!.includes(NEW)
  const readings = async () => ({
    time: await page.getByLabel('Time', { exact: true }).inputValue(),
    field: await page.getByLabel('Field', { exact: true }).inputValue(),
    mass: await page.getByLabel('All-up mass at the start').inputValue(),
  })

  it('is told to the pilot, and changes nothing by itself', async () => {
    const before = await readings()
    front.updateTo(folder)
    await context.setOffline(true)
    await context.setOffline(false) // the network is back: the page looks for a newer version
    await told(page).waitFor()
    await told(other).waitFor()
    expect(await readings()).toEqual(before)
    expect(await isNew(page)).toBe(false)
    await page.reload()
    await told(page).waitFor()
    expect(await isNew(page)).toBe(false)
    expect(await readings()).toEqual(before)
  })

  it('leaves the open one whole: pages not opened before still come from this device', async () => {
    await other.getByRole('link', { name: 'Method' }).click()
    await other.getByRole('heading', { level: 1, name: 'How Fairclimb computes' }).waitFor()
  })

  it('takes over when it is asked to, with every reading as it was typed', async () => {
    const before = await readings()
    // The version before must first let go of what another tab asked it, also where no answer comes.
    front.leaveOpen('/v1/attributions')
    const unanswered = other.evaluate(() => fetch('/v1/attributions').catch(() => 'given up'))
    await page.getByRole('button', { name: 'Change over now' }).click()
    await page.getByRole('button', { name: 'Changing over …' }).waitFor()
    await page.getByText(NEW).waitFor()
    expect(await unanswered).toBe('given up')
    expect(await readings()).toEqual(before)
    expect(before).toEqual({ time: METRIC.time, field: METRIC.field, mass: METRIC.allUpMass })
    expect(await told(page).count()).toBe(0)
    await page.locator('.chosen-setup').getByText('M-140').waitFor()
  })

  it('is offered to the other tab, which goes on in the version it has', async () => {
    await other.getByRole('link', { name: 'Data' }).click()
    await other.getByRole('heading', { level: 1, name: 'Data' }).waitFor()
    expect(await isNew(other)).toBe(false)
    await other.getByRole('button', { name: 'Change over now' }).click()
    await other.getByText(NEW).waitFor()
  })

  it('sends the draft once', async () => {
    await page.getByRole('button', { name: 'Send', exact: true }).click()
    await page.getByTestId('arrived').waitFor()
    const token = await tokenOf(stage, person)
    const { items } = await stage.read<{ items: Stored[] }>('/v1/submissions?mine=true', token)
    expect(items.map(({ site }) => site.name)).toEqual([METRIC.field])
  })
})
