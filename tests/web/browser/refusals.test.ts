import type { BrowserContext, Page } from 'playwright-core'
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
  write,
} from './stage.ts'

interface Stored {
  readonly site: { readonly name: string }
}

describe.skipIf(CHROMIUM === null)(`what can go wrong on the way${WITHOUT}`, () => {
  let stage: Stage
  let context: BrowserContext
  let page: Page
  let person: Person

  beforeAll(async () => {
    stage = await openStage()
    context = await stage.context({ viewport: { width: 360, height: 740 } })
    page = await context.newPage()
    person = await signUpOn(page)
    await page.goto('/submit')
    await page.evaluate(() => navigator.serviceWorker.ready)
    await page.reload({ waitUntil: 'networkidle' })
    await fillIn(page, METRIC)
    await send()
    await page.getByTestId('arrived').waitFor()
    await page.reload() // place, mass and wing are offered again
  })

  afterAll(() => stage?.close())

  const send = () => page.getByRole('button', { name: 'Send', exact: true }).click()
  const item = () => page.getByTestId('outbox-item')
  const stored = async () => {
    const token = await tokenOf(stage, person)
    const { items } = await stage.read<{ items: Stored[] }>('/v1/submissions?mine=true', token)
    return items.map(({ site }) => site.name)
  }

  it('a refusal: it is kept, shows the field, and arrives when it is mended', async () => {
    const day = new Date(Date.now() + 5 * 86_400_000).toISOString().slice(0, 10)
    await page.getByText(`${METRIC.field} · 212 m · today`).click()
    await page.getByLabel('Day').fill(day)
    await page.getByLabel('Field', { exact: true }).fill('Reedham')
    await page.getByRole('button', { name: /Full-throttle climb/ }).click()
    await page.getByLabel('Time', { exact: true }).fill('40')
    await page.getByLabel('Air temperature').fill('12')
    await send()
    await item().getByText('Refused, and kept here').waitFor()
    expect(await item().textContent()).toContain('Must not lie in the future')
    await page.reload()
    // What was begun since is set aside, not overwritten.
    await page.getByLabel('Air temperature').fill('9')
    await item().getByRole('button', { name: 'Mend it in the form' }).click()
    await page.getByTestId('shelved').waitFor()
    await item().waitFor({ state: 'detached' })
    const about = page.locator('.field', { has: page.getByLabel('Day') })
    expect(await about.textContent()).toContain('Must not lie in the future')
    expect(await page.getByLabel('Time', { exact: true }).inputValue()).toBe('40')
    expect(await seriousOn(page, 'a refused test')).toEqual([])
    await page.getByLabel('Day').fill('2026-05-11')
    await send()
    await page.getByTestId('arrived').getByText('Reedham').waitFor()
    expect((await stored()).sort()).toEqual([METRIC.field, 'Reedham'])
  })

  it('a token that ended at the field: who is signed in stays so, and it is sent with a new one', async () => {
    await page.getByTestId('shelved').getByRole('button', { name: 'Go on with it' }).click()
    await page.getByTestId('shelved').waitFor({ state: 'detached' }) // a reload would leave it there
    await stage.goOffline(context)
    await page.evaluate(() => {
      const session = JSON.parse(localStorage.getItem('fairclimb.session')!)
      localStorage.setItem('fairclimb.session', JSON.stringify({ ...session, endsAt: 0 }))
    })
    await page.reload()
    await page.getByText('No network. What you write is kept').waitFor()
    await page.getByRole('link', { name: person.email }).waitFor()
    await page.getByRole('button', { name: /Full-throttle climb/ }).click()
    await page.getByLabel('Time', { exact: true }).fill('41')
    await send()
    await item().getByText('Waiting to be sent').waitFor()
    expect(await item().getByText('Sign in').count()).toBe(0)
    await stage.goOnline(context)
    await page.getByTestId('arrived').waitFor()
    expect(await stored()).toHaveLength(3)
  })

  it('a session that was ended elsewhere: it waits, and goes when the same person signs in', async () => {
    const token = await page.evaluate(
      () => JSON.parse(localStorage.getItem('fairclimb.session')!).accessToken as string,
    )
    await fetch(`${stage.url}/v1/tokens/current`, {
      method: 'DELETE',
      headers: { authorization: `Bearer ${token}` },
    })
    await page.getByRole('button', { name: /Full-throttle climb/ }).click()
    await page.getByLabel('Time', { exact: true }).fill('42')
    await page.getByLabel('Air temperature').fill('12')
    await send()
    await item().getByRole('link', { name: 'Sign in to that account' }).click()
    await page.getByLabel('E-mail').fill(person.email)
    await page.getByLabel('Password').fill(person.password)
    await page.getByRole('button', { name: 'Sign in' }).click()
    await page.getByTestId('arrived').waitFor()
    expect(await stored()).toHaveLength(4)
  })

  it('a setup that must not be flown: the form says so at once, also without a network', async () => {
    const { items } = await stage.read<{ items: { id: string; name: string }[] }>('/v1/setups')
    const unsafe = items[0]!
    const gap = { kind: 'tipClearance', staticClearanceMm: 12, contactSeen: true }
    const body = {
      flownOn: '2026-05-10',
      site: { name: 'Larkfield', elevationM: 212 },
      conditions: { temperatureC: 14.5, airMotion: 'calm' },
      pilot: { massKg: 82 },
      wing: { flatAreaM2: 25 },
      interest: 'none',
      entries: [{ setupId: unsafe.id, allUpMassKg: 121, runs: [gap] }],
    }
    await write(stage, '/v1/submissions', { token: await tokenOf(stage, person), body })
    const choose = async () => {
      await page.getByLabel('Which setup?').last().fill(unsafe.name)
      await page
        .getByRole('list', { name: 'Setups found' })
        .getByRole('button', { name: unsafe.name })
        .click()
      await page.locator('.warning-stop').getByText('Do not fly').waitFor()
      expect(await page.locator('.warning-stop').textContent()).toContain(unsafe.name)
    }
    await page.goto('/submit', { waitUntil: 'networkidle' })
    await page.getByRole('button', { name: 'Choose another' }).click()
    await choose()
    await page.getByRole('button', { name: 'Choose another' }).click()
    await stage.goOffline(context)
    await page.reload()
    await choose()
    await stage.goOnline(context)
  })

  it('no room on the device: it says so, keeps the form, and sends from it once there is a network', async () => {
    const full = await stage.context({ viewport: { width: 360, height: 740 } })
    const pilot = await full.newPage()
    const session = await full.newCDPSession(pilot)
    const limit = (quotaSize?: number) =>
      session.send('Storage.overrideQuotaForOrigin', {
        origin: stage.url,
        ...(quotaSize === undefined ? {} : { quotaSize }),
      })
    const field = pilot.getByLabel('Field', { exact: true })
    const end = pilot.locator('.send')
    await limit(1)
    await signInOn(pilot, person)
    await pilot.goto('/submit')
    await fillLocalStorage(pilot)
    await fillIn(pilot, { ...METRIC, field: 'Withybank' })
    await end
      .getByText(/no room to keep it. Free some space, or send it before you close/)
      .waitFor()
    await stage.goOffline(full)
    await end.getByRole('button', { name: 'Send', exact: true }).click()
    await end.getByText(/^Not sent.+still in the form: leave this page open/).waitFor()
    expect(await field.inputValue()).toBe('Withybank')
    await end.getByRole('button', { name: 'Set it aside' }).click()
    await end
      .getByText(/^This device has no room/)
      .nth(1)
      .waitFor()
    expect(await field.inputValue()).toBe('Withybank')
    expect(await pilot.getByLabel('Time', { exact: true }).inputValue()).toBe(METRIC.time)
    const [question] = await Promise.all([
      pilot.waitForEvent('dialog'),
      pilot.close({ runBeforeUnload: true }),
    ])
    await question.dismiss() // stays
    expect(await stored()).not.toContain('Withybank')
    await stage.goOnline(full)
    await end.getByRole('button', { name: 'Send', exact: true }).click()
    await pilot.getByTestId('arrived').waitFor()
    expect((await stored()).filter((name) => name === 'Withybank')).toHaveLength(1)
    expect(await field.inputValue()).toBe('')
    await pilot.evaluate(() => localStorage.removeItem(`filling ${2 ** 22}`))
    await field.fill('Larkfield')
    await end.getByText('Kept on this device.').waitFor()
    await limit()
    await full.close()
  })

  it('is installable: manifest and icons are there, and it starts without a network', async () => {
    const session = await context.newCDPSession(page)
    await page.goto('/submit', { waitUntil: 'networkidle' })
    const { installabilityErrors } = await session.send('Page.getInstallabilityErrors')
    // A context of a test is never more than that.
    const errorIds = installabilityErrors.map(({ errorId }) => errorId)
    expect(errorIds.filter((id) => id !== 'in-incognito')).toEqual([])
    const { data, errors } = await session.send('Page.getAppManifest')
    expect(errors).toEqual([])
    const manifest = JSON.parse(data!) as { start_url: string; icons: { src: string }[] }
    for (const { src } of manifest.icons) {
      const answer = await fetch(`${stage.url}${src}`)
      expect(answer.status, src).toBe(200)
      expect(answer.headers.get('content-type'), src).toMatch(/^image\//)
    }
    await stage.goOffline(context)
    await page.goto(manifest.start_url)
    await page.getByRole('button', { name: 'Send', exact: true }).waitFor()
    await stage.goOnline(context)
  })
})

/** Until not a letter more goes in. */
function fillLocalStorage(page: Page): Promise<void> {
  return page.evaluate(() => {
    for (let size = 2 ** 22; size >= 1; size /= 2) {
      try {
        localStorage.setItem(`filling ${size}`, 'x'.repeat(size))
      } catch {
        // no room for as much
      }
    }
  })
}
