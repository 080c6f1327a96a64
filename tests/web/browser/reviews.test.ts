import type { Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'

import { CHROMIUM, WITHOUT } from './chromium.ts'
import { seriousInBothThemes } from './inspect.ts'
import { openStage, type Person, type Stage, signInOn, signUpOn, tokenOf, write } from './stage.ts'

const ADMIN: Person = { email: 'keeper@example.org', password: 'late air over the marsh' }
const PHONE = { viewport: { width: 360, height: 740 }, reducedMotion: 'reduce' } as const

interface Named {
  readonly id: string
  readonly name: string
}

interface Review {
  readonly id: string
  readonly kind: string
  readonly submissionId: string | null
  readonly decisions: readonly { readonly decision: string; readonly reason: string }[]
}

describe.skipIf(CHROMIUM === null)(`what moderators look at${WITHOUT}`, () => {
  let stage: Stage
  let person: Person
  let reported: Named

  beforeAll(async () => {
    stage = await openStage({ ADMIN_EMAIL: ADMIN.email, ADMIN_PASSWORD: ADMIN.password })
    person = await signUpOn(await (await stage.context()).newPage())
    const { items } = await stage.read<{ items: Named[] }>('/v1/setups?limit=1')
    reported = items[0]!
    const token = await tokenOf(stage, person)
    const text = 'A clamp of the fuel line came loose.'
    await write(stage, '/v1/reports', {
      token,
      body: { kind: 'unsafe', setupId: reported.id, text },
    })
  })

  afterAll(() => stage?.close())

  async function waiting(): Promise<Review[]> {
    const path = '/v1/reviews?state=waiting'
    return (await stage.read<{ items: Review[] }>(path, await tokenOf(stage, ADMIN))).items
  }

  async function asModerator(options = {}): Promise<Page> {
    const page = await (await stage.context({ ...PHONE, ...options })).newPage()
    await signInOn(page, ADMIN)
    return page
  }

  const cardOf = (page: Page, heading: string) =>
    page.getByRole('article').filter({ has: page.getByRole('heading', { name: heading }) })

  it('is shown to nobody else, and the link to it neither', async () => {
    const page = await (await stage.context()).newPage()
    await page.goto('/reviews')
    await page.getByText('as a moderator').waitFor()
    await signInOn(page, person)
    expect(await page.getByRole('link', { name: 'Reviews' }).count()).toBe(0)
    await page.goto('/reviews')
    await page.getByText('This page is for moderators.').waitFor()
    expect(await page.getByRole('article').count()).toBe(0)
  })

  it('has nothing serious against it in either theme, opened up on a phone, and fits', async () => {
    const page = await asModerator()
    const strangers: string[] = []
    page.on('request', (request) => {
      if (!request.url().startsWith(stage.url)) strangers.push(request.url())
    })
    await page.getByRole('link', { name: 'Reviews' }).click()
    await cardOf(page, 'Reported as unsafe').waitFor()
    await page.waitForLoadState('networkidle')
    const groups = await page
      .locator('main fieldset')
      .evaluateAll((all) => all.map((one) => one.querySelector('input')!.name))
    expect(new Set(groups).size).toBe(groups.length)
    for (const closed of await page.locator('main details > summary').all()) await closed.click()
    await cardOf(page, 'Reported as unsafe').getByLabel('Nothing in it').check()
    await page.waitForLoadState('networkidle')
    expect(await seriousInBothThemes(page, 'reviews')).toEqual([])
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(360)
    expect(strangers).toEqual([])
  })

  it('says what is odd about a session in words, beside what all tests say, with a table', async () => {
    const page = await asModerator()
    await page.goto('/reviews', { waitUntil: 'networkidle' })
    const card = cardOf(page, 'A session that does not fit the rest').first()
    await card.locator('svg.picture').waitFor()
    const words = await card.locator('blockquote').textContent()
    expect(words).toMatch(/Run \d with .+ is [\d.]+ standard deviations (?:higher|lower)/)
    expect(words).not.toContain('/entries/')
    await card.getByText('The same as a table').click()
    const row = card.getByRole('row').filter({ hasText: 'stands out' })
    expect(await row.first().textContent()).toMatch(/Run \d of this session/)
    await card.getByText('The test as it was sent').click()
    expect(await card.getByRole('region', { name: 'as it was sent' }).textContent()).toContain(
      'Time',
    )
  })

  it('sets an odd session aside with a reason, by keyboard alone, and shows who did what', async () => {
    const odd = (await waiting()).find(({ kind }) => kind === 'outlier')!
    const page = await asModerator()
    await page.goto(`/reviews/${odd.id}`)
    await page.getByLabel('Keep it').focus()
    await page.keyboard.press('ArrowRight')
    await page.getByText('this revision no longer counts').waitFor()
    const button = page.getByRole('button', { name: 'Decide: set it aside' })
    expect(await button.isDisabled()).toBe(true)
    await page.keyboard.press('Tab')
    await page.keyboard.type('The watch was started late.')
    await page.keyboard.press('Enter')
    await page.getByText('The session is set aside').waitFor()
    await page.getByText('Audit trail').click()
    const trail = page.getByRole('region', { name: 'of this review' })
    const decided = trail.getByRole('row').filter({ hasText: 'Decided' })
    expect(await decided.textContent()).toContain('The watch was started late.')
    const { setAside } = await stage.read<{ setAside: boolean }>(
      `/v1/submissions/${odd.submissionId}`,
    )
    expect(setAside).toBe(true)
    expect((await waiting()).map(({ id }) => id)).not.toContain(odd.id)
  })

  it('lifts what a report put in force, and the page of the setup says why', async () => {
    const state = async () => {
      const { safety } = await stage.read<{ safety: { state: string } }>(
        `/v1/setups/${reported.id}`,
      )
      return safety.state
    }
    expect(await state()).toBe('advisory')
    const page = await asModerator()
    // Charts above push what is below them down as they come.
    await page.goto('/reviews', { waitUntil: 'networkidle' })
    const card = cardOf(page, 'Reported as unsafe')
    await card.getByLabel('Lift it').check()
    await card.getByLabel('Reason').fill('A new clamp was fitted and checked.')
    await card.getByRole('button', { name: 'Decide: lift it' }).click()
    await card.getByText('Lifted', { exact: true }).waitFor()
    expect(await state()).toBe('none')
    await page.goto(`/setups/${reported.id}`)
    await page.getByText('A new clamp was fitted and checked.').waitFor()
  })

  it('keeps what was written when the service refuses', async () => {
    const token = await tokenOf(stage, person)
    const body = { kind: 'wrong', setupId: reported.id, text: 'The name is misspelt.' }
    await write(stage, '/v1/reports', { token, body })
    const page = await asModerator()
    // Charts above push what is below them down as they come.
    await page.goto('/reviews', { waitUntil: 'networkidle' })
    const card = cardOf(page, 'Said to be wrong')
    await card.getByLabel('Nothing in it').check()
    await card.getByLabel('Reason').fill('The name is as the maker writes it.')
    await page.route('**/decisions', (route) => route.abort())
    await card.getByRole('button', { name: 'Decide: nothing in it' }).click()
    await card.getByRole('alert').waitFor()
    await page.unroute('**/decisions')
    // A page that is left before the answer may take the call with it.
    await Promise.all([
      page.waitForResponse((response) => response.url().endsWith('/decisions') && response.ok()),
      card.getByRole('button', { name: 'Decide: nothing in it' }).click(),
    ])
    await page.goto('/reviews?state=closed')
    await cardOf(page, 'Said to be wrong').getByText('as the maker writes it').waitFor()
  })
})
