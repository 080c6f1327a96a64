import { afterAll, beforeAll, describe, expect, it } from 'vitest'

import { CHROMIUM, WITHOUT } from './chromium.ts'
import { fillIn, METRIC, openStage, type Person, type Stage, signUpOn, tokenOf } from './stage.ts'

interface Revised {
  readonly revision: number
  readonly entries: readonly { readonly runs: readonly { readonly durationS: number }[] }[]
  readonly withdrawnAt: string | null
}

describe.skipIf(CHROMIUM === null)(`a pilot among the own tests${WITHOUT}`, () => {
  let stage: Stage
  let page: Awaited<ReturnType<Awaited<ReturnType<Stage['context']>>['newPage']>>
  let person: Person

  beforeAll(async () => {
    stage = await openStage()
    page = await (await stage.context()).newPage()
    person = await signUpOn(page)
    await page.goto('/submit')
    await fillIn(page, METRIC)
    await page.getByRole('button', { name: 'Send', exact: true }).click()
    await page.getByTestId('arrived').waitFor()
  })

  afterAll(() => stage?.close())

  const stored = async () => {
    const token = await tokenOf(stage, person)
    const { items } = await stage.read<{ items: Revised[] }>('/v1/submissions?mine=true', token)
    return items
  }

  it('corrects a time, and the history keeps what stood there before', async () => {
    await page.goto('/mine')
    await page.getByRole('button', { name: 'Correct it' }).click()
    await page.getByRole('heading', { name: 'Correct a test' }).waitFor()
    const time = page.getByLabel('Time', { exact: true })
    expect(await time.inputValue()).toBe('41.8')
    await time.fill('44.1')
    await page.getByRole('button', { name: 'Send', exact: true }).click()
    await page.getByTestId('arrived').waitFor()
    const [test, ...others] = await stored()
    expect(others).toEqual([])
    expect(test!.revision).toBe(2)
    expect(test!.entries[0]!.runs[0]!.durationS).toBe(44.1)
    await page.goto('/mine')
    await page.getByText('What stood here before').click()
    await page.getByRole('heading', { name: /^Revision 1,/ }).waitFor()
  })

  it('withdraws it after having been asked', async () => {
    await page.goto('/mine')
    await page.getByRole('button', { name: 'Withdraw it' }).click()
    await page.getByRole('button', { name: 'Yes, withdraw it' }).click()
    await page.getByText('Withdrawn: it no longer counts.').waitFor()
    expect((await stored())[0]!.withdrawnAt).not.toBeNull()
  })

  it('makes a key that works, sees it once, and revokes it', async () => {
    await page.getByLabel('What is the key for?').fill('logbook')
    await page.getByRole('button', { name: 'Make a key' }).click()
    const key = (await page.locator('.secret').textContent())!
    const asKey = () => fetch(`${stage.url}/v1/me`, { headers: { authorization: `Bearer ${key}` } })
    expect((await asKey()).status).toBe(200)
    await page.reload()
    await page.getByText('logbook').waitFor()
    expect(await page.locator('.secret').count()).toBe(0)
    await page.getByRole('button', { name: 'Revoke' }).click()
    await page.getByRole('button', { name: 'Yes, revoke it' }).click()
    await page.getByText('logbook').waitFor({ state: 'detached' })
    expect((await asKey()).status).toBe(401)
  })

  it('signs out', async () => {
    await page.getByRole('button', { name: 'Sign out' }).click()
    await page.getByText('to see what you submitted').waitFor()
  })
})
