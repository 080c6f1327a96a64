import { afterAll, beforeAll, describe, expect, it } from 'vitest'

import { CHROMIUM, WITHOUT } from './chromium.ts'
import { openStage, type Stage, signUpOn } from './stage.ts'

describe.skipIf(CHROMIUM === null)(`a setup that nobody has entered yet${WITHOUT}`, () => {
  let stage: Stage
  let page: Awaited<ReturnType<Awaited<ReturnType<Stage['context']>>['newPage']>>

  beforeAll(async () => {
    stage = await openStage()
    page = await (await stage.context()).newPage()
    await signUpOn(page)
    await page.goto('/submit')
  })

  afterAll(() => stage?.close())

  const part = (name: string) => page.getByRole('group', { name, exact: true })

  async function open(): Promise<void> {
    await page.getByText('It is not in the list').click()
    await part('Frame').waitFor()
  }

  it('is added from the form: what is known is chosen, what is not is typed', async () => {
    await open()
    await page.getByRole('button', { name: 'Add this setup and take it' }).click()
    // Maker and model of three parts, and the diameter of the propeller.
    expect(await page.getByText('This is needed.').count()).toBe(7)
    await part('Engine').getByLabel('Which engine?').selectOption({ index: 1 })
    await part('Frame').getByLabel('Which frame?').selectOption({ index: 1 })
    await part('Propeller').getByLabel('Maker').fill('Fenwright')
    await part('Propeller').getByLabel('Model').fill('Reed')
    await part('Propeller').getByLabel('Diameter').fill('127')
    await page.getByRole('button', { name: 'Add this setup and take it' }).click()
    const chosen = page.locator('.chosen-setup')
    await chosen.getByText('Fenwright Reed 127 cm').waitFor()
    const { items } = await stage.read<{ items: { name: string }[] }>('/v1/setups?q=Fenwright')
    expect(items).toHaveLength(1)
    expect(await chosen.textContent()).toContain(items[0]!.name)
  })

  it('is offered as it is known when it is there already, part by part', async () => {
    await page.getByRole('button', { name: 'Choose another' }).click()
    await open()
    await part('Engine').getByLabel('Which engine?').selectOption({ index: 1 })
    await part('Frame').getByLabel('Which frame?').selectOption({ index: 1 })
    await part('Propeller').getByLabel('Maker').fill('fen-wright')
    await part('Propeller').getByLabel('Model').fill('REED')
    await part('Propeller').getByLabel('Diameter').fill('127')
    await page.getByRole('button', { name: 'Add this setup and take it' }).click()
    await page.getByRole('button', { name: 'Take Fenwright Reed, 127 cm' }).click()
    await page.getByRole('button', { name: 'Add this setup and take it' }).click()
    await page.getByRole('button', { name: /^Take .*Fenwright Reed 127 cm/ }).click()
    await page.locator('.chosen-setup').getByText('Fenwright Reed 127 cm').waitFor()
    const { items } = await stage.read<{ items: unknown[] }>('/v1/components?q=Fenwright')
    expect(items).toHaveLength(1)
  })

  it('waits for the network and for who is signed in, and says so', async () => {
    const context = await stage.context()
    const stranger = await context.newPage()
    await stranger.goto('/submit', { waitUntil: 'networkidle' })
    await stranger.getByText('It is not in the list').click()
    await stranger.getByText('to add one; what you typed so far is kept').waitFor()
    await stage.goOffline(context)
    await stranger.getByText('can be added only with a network').waitFor()
    await stage.goOnline(context)
    await stranger.getByText('to add one; what you typed so far is kept').waitFor()
  })
})
