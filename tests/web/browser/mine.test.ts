import { afterAll, beforeAll, describe, expect, it } from 'vitest'

import { CHROMIUM, WITHOUT } from './chromium.ts'
import { seriousOn } from './inspect.ts'
import {
  fillIn,
  METRIC,
  openStage,
  type Person,
  type Stage,
  signInOn,
  signUpOn,
  tokenOf,
} from './stage.ts'

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

  const offline = async () => {
    await page.evaluate(() => navigator.serviceWorker.ready)
    await page.goto('/mine')
    await page.getByText('Withdrawn: it no longer counts.').waitFor()
    await expect.poll(keptAccounts).toEqual([person.email])
    await stage.goOffline(page.context())
    await page.reload()
  }

  it('sees the last known list without a network, marked with its age and not to be changed', async () => {
    await offline()
    const notice = page.getByRole('status').filter({ hasText: 'cannot be had now' })
    await notice
      .getByText(/This is the one of a moment ago \(.+\), as this device kept it/)
      .waitFor()
    const test = page.getByRole('region', { name: new RegExp(`^${METRIC.field}`) })
    await test.getByText('Full-throttle climb').waitFor()
    expect(await test.getByRole('button').count()).toBe(0)
    expect(await seriousOn(page, 'own tests offline')).toEqual([])
    await stage.goOnline(page.context())
    await notice.getByRole('button', { name: 'Ask again' }).click()
    await notice.waitFor({ state: 'detached' })
  })

  it('leaves nothing of it on the device when signing out, also without a network', async () => {
    await offline()
    await page.getByText('as this device kept it').waitFor()
    await page.getByRole('button', { name: 'Sign out' }).click()
    await page.getByText('to see what you submitted').waitFor()
    expect(await page.getByText(METRIC.field).count()).toBe(0)
    await expect.poll(keptAccounts).toEqual([])
    const remembered = await page.evaluate(() => JSON.stringify({ ...localStorage }))
    expect(remembered).not.toContain(person.email)
    expect(remembered).not.toContain(METRIC.field)
    await stage.goOnline(page.context())
  })

  it('shows nothing of one account to another on the same device, waiting tests included', async () => {
    const own = page
    await own.goto('/submit')
    await signInOn(own, person)
    await own.goto('/submit')
    await stage.goOffline(own.context())
    await fillIn(own, { ...METRIC, field: 'Reedham' })
    await own.getByRole('button', { name: 'Send', exact: true }).click()
    await own.getByTestId('outbox-item').getByText('Reedham').waitFor()
    await own.goto('/mine')
    await own.getByRole('button', { name: 'Sign out' }).click()
    await own.getByText('written in an account').waitFor()
    await stage.goOnline(own.context())
    await signUpOn(own)
    await own.getByText('Nothing has arrived yet.').waitFor()
    await own.getByText('It is not yours').waitFor()
    for (const path of ['/mine', '/submit']) {
      await own.goto(path)
      await own.getByText('It is not yours').waitFor()
      const words = await own.locator('body').textContent()
      expect(words, path).not.toContain(person.email)
      expect(words, path).not.toContain('Reedham')
    }
    await own.goto('/mine')
    await own.getByRole('button', { name: 'Sign out' }).click()
    await signInOn(own, person)
    await own.getByTestId('arrived').getByText('Reedham').waitFor()
    expect((await stored()).length).toBe(2)
  })

  /** Whose lists this device keeps. */
  function keptAccounts(): Promise<string[]> {
    return page.evaluate(
      () =>
        new Promise<string[]>((resolve, reject) => {
          const opening = indexedDB.open('fairclimb')
          opening.onerror = () => reject(opening.error)
          opening.onsuccess = () => {
            const asked = opening.result.transaction('mine').objectStore('mine').getAllKeys()
            asked.onsuccess = () => {
              opening.result.close()
              resolve(asked.result as string[])
            }
          }
        }),
    )
  }
})
