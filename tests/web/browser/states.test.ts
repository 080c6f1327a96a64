import type { BrowserContext, BrowserContextOptions, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'

import { CHROMIUM, WITHOUT } from './chromium.ts'
import { faultsOf, openAll, settled } from './inspect.ts'
import { openStage, type Person, type Stage, signInOn, signUpOn } from './stage.ts'

const NOBODY = '00000000-0000-4000-8000-000000000000'

const PROBLEM = {
  type: '/problems/not-ready',
  title: 'The service is not ready',
  status: 503,
  detail: 'The service has no time for this now; try again in a minute.',
  instance: 'req-1',
}

/** A service without data: what is empty, on its way, refused or out of reach is looked at here. */
describe.skipIf(CHROMIUM === null)(`a page that has nothing to show${WITHOUT}`, () => {
  let stage: Stage
  let person: Person
  let member: BrowserContext

  beforeAll(async () => {
    stage = await openStage({ DEMO_DATA: 'off' })
    member = await stage.context({ serviceWorkers: 'block' })
    person = await signUpOn(await member.newPage())
  })

  afterAll(() => stage?.close())

  const stranger = async (options: BrowserContextOptions = {}) =>
    (await stage.context({ serviceWorkers: 'block', ...options })).newPage()

  it.each(['/', '/compare', '/compare?metric=electricPower', '/setups', '/data', '/submit'])(
    'says so where there is no data yet: %s',
    async (path) => {
      const page = await stranger()
      await page.goto(path)
      await settled(page)
      await openAll(page)
      expect(await page.getByRole('alert').count()).toBe(0)
      expect(await faultsOf(page, `empty ${path}`)).toEqual([])
      await page.context().close()
    },
  )

  it('says so among the own tests', async () => {
    const page = await member.newPage()
    await page.goto('/mine')
    await page.getByText('Nothing has arrived yet.').waitFor()
    await openAll(page)
    expect(await faultsOf(page, 'empty /mine')).toEqual([])
    await page.close()
  })

  it.each(['/', '/compare', '/setups', `/setups/${NOBODY}`, '/data', '/mine'])(
    'says that it is on its way: %s',
    async (path) => {
      const page = await member.newPage()
      await page.route('**/v1/**', () => {}) // never answered
      await page.goto(path)
      await page.locator('main .loading').first().waitFor()
      expect(await faultsOf(page, `loading ${path}`)).toEqual([])
      await page.unrouteAll({ behavior: 'ignoreErrors' })
      await page.close()
    },
  )

  it.each(['/', '/compare', '/setups', `/setups/${NOBODY}`, '/data', '/mine'])(
    'says why it is not there, and takes another attempt: %s',
    async (path) => {
      const page = await member.newPage()
      let isBroken = true
      await page.route('**/v1/**', (route) =>
        isBroken
          ? route.fulfill({
              status: 503,
              contentType: 'application/problem+json',
              body: JSON.stringify(PROBLEM),
            })
          : route.continue(),
      )
      await page.goto(path)
      const alert = page.getByRole('alert').filter({ hasText: PROBLEM.detail }).first()
      await alert.waitFor()
      expect(await faultsOf(page, `refused ${path}`)).toEqual([])
      isBroken = false
      await alert.getByRole('button', { name: 'Try again' }).click()
      await alert.waitFor({ state: 'detached' })
      await page.close()
    },
  )

  it.each([`/setups/${NOBODY}`, `/components/${NOBODY}`, '/pilots/of-old'])(
    'shows a way on from what is not there: %s',
    async (path) => {
      const page = await stranger()
      await page.goto(path)
      await page
        .getByRole('main')
        .getByRole('link', { name: /the start/ })
        .waitFor()
      expect(await faultsOf(page, `missing ${path}`)).toEqual([])
      await page.context().close()
    },
  )

  it('says what is wrong when signing in and when opening an account', async () => {
    const page = await stranger()
    await page.goto('/sign-in')
    await page.getByLabel('E-mail').fill(person.email)
    await page.getByLabel('Password').fill('not the password of anybody')
    await page.getByRole('button', { name: 'Sign in' }).click()
    await page.getByRole('alert').waitFor()
    expect(await faultsOf(page, 'a wrong password')).toEqual([])
    await page.getByLabel('No, open one').check()
    await page.getByLabel('E-mail').fill(person.email)
    await page.getByLabel('Name shown').fill('Wren')
    await page.getByLabel('Password').fill('short')
    await page.getByRole('button', { name: 'Open the account' }).click()
    await page.getByRole('alert').waitFor()
    expect(await faultsOf(page, 'a refused account')).toEqual([])
    await page.context().close()
  })

  it('says that there is no network, on every page', async () => {
    const context = await stage.context()
    const page = await context.newPage()
    await signInOn(page, person)
    await page.evaluate(() => navigator.serviceWorker.ready)
    await page.goto('/') // comes from the device from now on
    await settled(page)
    await stage.goOffline(context)
    const silent: string[] = []
    const faults: string[] = []
    for (const path of OFFLINE_PAGES) {
      await page.goto(path)
      await settled(page)
      if (!(await saysOffline(page))) silent.push(path)
      faults.push(...(await faultsOf(page, `offline ${path}`)))
    }
    expect(silent).toEqual([])
    expect(faults).toEqual([])
    await context.close()
  })
})

const OFFLINE_PAGES = [
  '/',
  '/compare',
  '/submit',
  '/setups',
  `/setups/${NOBODY}`,
  `/components/${NOBODY}`,
  '/mine',
  '/data',
  '/method',
  '/reviews',
  '/sign-in',
]

function saysOffline(page: Page): Promise<boolean> {
  return page.getByText('No network.').first().isVisible()
}
