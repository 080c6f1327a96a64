import { afterAll, beforeAll, describe, expect, it } from 'vitest'

import { CHROMIUM, WITHOUT } from './chromium.ts'
import { allPages, openStage, type Stage } from './stage.ts'
import { type Visit, visit } from './tour.ts'

const BUDGET_BYTES = 150_000

describe.skipIf(CHROMIUM === null)(`every page${WITHOUT}`, () => {
  let stage: Stage
  const visits: Visit[] = []

  beforeAll(async () => {
    stage = await openStage()
    for (const path of await allPages(stage)) visits.push(await visit(stage, path))
    expect(visits.length).toBeGreaterThan(10)
  })

  afterAll(() => stage?.close())

  /** What each page has to be blamed for, with its path. */
  const blamed = (faultsOf: (one: Visit) => readonly unknown[]) =>
    visits.flatMap((one) => faultsOf(one).map((fault) => `${one.path}: ${fault}`))

  it('has nothing serious against it in either theme, at 360 px', () => {
    expect(blamed(({ serious }) => serious)).toEqual([])
  })

  it('fits into the width of a phone and of a counter', () => {
    expect(blamed(({ tooNarrow }) => tooNarrow)).toEqual([])
  })

  it(`brings less than ${BUDGET_BYTES / 1000} kB on a first visit, and nothing from elsewhere`, () => {
    expect(blamed(({ strangers }) => strangers)).toEqual([])
    for (const { path, bytes } of visits) {
      expect(bytes, path).toBeGreaterThan(10_000)
      expect(bytes, path).toBeLessThan(BUDGET_BYTES)
    }
  })

  it('has for every chart a table and a text that say the same', () => {
    const charts = visits.flatMap((one) => one.charts)
    const without = charts.filter(
      ({ text, tableRows }) => tableRows === 0 || (text ?? '').length < 40,
    )
    expect(without).toEqual([])
    expect(charts.length).toBeGreaterThan(12)
  })

  it('can be worked by keyboard: every stop is in sight, named, and shows the focus', () => {
    expect(blamed(({ focusFaults }) => focusFaults)).toEqual([])
  })

  it('has one heading of the first level, and no level left out', () => {
    for (const { path, headingLevels } of visits) {
      expect(
        headingLevels.filter((level) => level === 1),
        path,
      ).toHaveLength(1)
      expect(headingLevels[0], path).toBe(1)
      headingLevels.forEach((level, index) => {
        const step = level - (headingLevels[index - 1] ?? 0)
        expect(step, `${path}, heading ${index}`).toBeLessThanOrEqual(1)
      })
    }
  })

  it('gives whoever follows an old link a way back, and a program a problem', async () => {
    const page = await (await stage.context()).newPage()
    const answer = await page.goto('/pilots/of-old')
    expect(answer!.status()).toBe(404)
    await page.getByRole('heading', { name: 'There is no such page' }).waitFor()
    await page.getByRole('main').getByRole('link', { name: 'To the start' }).click()
    await page.waitForURL(`${stage.url}/`)
    const program = await fetch(`${stage.url}/v1/pilots`, { headers: { accept: '*/*' } })
    expect(program.status).toBe(404)
    expect(program.headers.get('content-type')).toContain('application/problem+json')
  })

  it('runs under a policy that takes nothing inline, without a complaint', () => {
    for (const { path, policy } of visits) expect(policy, path).toContain("default-src 'self'")
    expect(blamed(({ complaints }) => complaints)).toEqual([])
  })
})
