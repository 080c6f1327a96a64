import { randomUUID } from 'node:crypto'
import { join } from 'node:path'

import type { Browser, BrowserContext, BrowserContextOptions, Page } from 'playwright-core'

import {
  cleanUp,
  makePlace,
  type ServiceProcess,
  startProcess,
} from '../../support/service-process.ts'
import { openBrowser } from './chromium.ts'
import { copyDemoWorld } from './demo-world.ts'
import { openNetwork } from './network.ts'

/** Ends what hangs. A busy machine may well take long over one page. */
const PATIENCE_MS = 90_000

/** The built service with its demo, and a browser before it. */
export interface Stage {
  /** Where pages find the service. */
  readonly url: string
  /** The service itself, also while the pages have no network. */
  readonly service: string
  readonly browser: Browser
  context(options?: BrowserContextOptions): Promise<BrowserContext>
  /** Cuts the network of all pages, and tells those of the context so. */
  goOffline(context: BrowserContext): Promise<void>
  goOnline(context: BrowserContext): Promise<void>
  /** An answer of the interface. */
  read<Body>(path: string, token?: string): Promise<Body>
  close(): Promise<void>
}

/** Everything as it is shipped: the service as a process of its own with an embedded database. */
export async function openStage(env: Readonly<Record<string, string>> = {}): Promise<Stage> {
  const place = await makePlace()
  const processes: ServiceProcess[] = []
  const dataDir = join(place, 'data')
  if (env.DEMO_DATA !== 'off') await copyDemoWorld(dataDir)
  const running = startProcess({
    DATA_DIR: dataDir,
    DEMO_DATA: 'on',
    RATE_LIMIT: 'off',
    LOG_LEVEL: 'error',
    ...env,
  })
  processes.push(running)
  const service = await running.ready()
  const network = await openNetwork(service)
  const { url } = network
  const browser = await openBrowser()
  return {
    url,
    service,
    browser,
    async context(options = {}) {
      const context = await browser.newContext({ baseURL: url, ...options })
      context.setDefaultTimeout(PATIENCE_MS)
      return context
    },
    async goOffline(context) {
      network.cut()
      await context.setOffline(true)
    },
    async goOnline(context) {
      network.mend()
      await context.setOffline(false)
    },
    async read<Body>(path: string, token?: string) {
      const headers = new Headers()
      if (token !== undefined) headers.set('authorization', `Bearer ${token}`)
      return (await (await fetch(`${service}${path}`, { headers })).json()) as Body
    },
    async close() {
      await browser.close()
      await network.close()
      running.child.kill('SIGTERM')
      await running.ended()
      await cleanUp(place, processes)
    },
  }
}

export interface Person {
  readonly email: string
  readonly password: string
}

/** Opens an account by the page, as a person does; ends on the page that was meant. */
export async function signUpOn(page: Page): Promise<Person> {
  const person = { email: `${randomUUID()}@example.org`, password: 'early air over the marsh' }
  await page.goto('/sign-in')
  await page.getByLabel('No, open one').check()
  await page.getByLabel('E-mail').fill(person.email)
  await page.getByLabel('Name shown').fill('Wren')
  await page.getByLabel('Password').fill(person.password)
  await page.getByRole('button', { name: 'Open the account' }).click()
  await page.getByRole('heading', { name: 'My tests' }).waitFor()
  return person
}

/** Signs in by the page; ends on the page that was meant. */
export async function signInOn(page: Page, { email, password }: Person): Promise<void> {
  await page.goto('/sign-in')
  await page.getByLabel('E-mail').fill(email)
  await page.getByLabel('Password').fill(password)
  await page.getByRole('button', { name: 'Sign in' }).click()
  await page.getByRole('heading', { name: 'My tests' }).waitFor()
}

export async function tokenOf(stage: Stage, { email, password }: Person): Promise<string> {
  const answer = await fetch(`${stage.service}/v1/tokens`, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify({ grantType: 'password', email, password }),
  })
  return ((await answer.json()) as { accessToken: string }).accessToken
}

/** Values as a pilot reads them; in whatever units the page is set to. */
export interface Readings {
  readonly setup: string
  readonly allUpMass: string
  readonly time: string
  readonly field: string
  readonly elevation: string
  readonly temperature: string
  readonly pressure: string
  readonly pilot: string
  readonly area: string
}

export const METRIC: Readings = {
  setup: 'Marrow M-140 Sweep 130',
  allUpMass: '121',
  time: '41,8',
  field: 'Larkfield',
  elevation: '212',
  temperature: '14.5',
  pressure: '1018',
  pilot: '82',
  area: '25',
}

/** Fills in the field form with one climb. */
export async function fillIn(page: Page, readings: Readings): Promise<void> {
  const main = page.getByRole('main')
  await main.getByLabel('Which setup?').fill(readings.setup)
  await main
    .getByRole('list', { name: 'Setups found' })
    .getByRole('button', { name: /Marrow.+M-140/ })
    .first()
    .click()
  await main.getByLabel('All-up mass at the start').fill(readings.allUpMass)
  await main.getByRole('button', { name: /Full-throttle climb/ }).click()
  await main.getByLabel('Time', { exact: true }).fill(readings.time)
  await main.getByLabel('Field', { exact: true }).fill(readings.field)
  await main.getByLabel('Elevation of the field').fill(readings.elevation)
  await main.getByLabel('Air temperature').fill(readings.temperature)
  await main.getByLabel('Pressure optional').fill(readings.pressure)
  await main.getByLabel('Pilot with clothing').fill(readings.pilot)
  await main.getByLabel('Flat area of the wing').fill(readings.area)
}

/** Writes to the interface; for what a page needs to have something to show. */
export async function write<Body>(
  stage: Stage,
  path: string,
  { body, token }: { readonly body: unknown; readonly token: string },
): Promise<Body> {
  const answer = await fetch(`${stage.service}${path}`, {
    method: 'POST',
    headers: { 'content-type': 'application/json', authorization: `Bearer ${token}` },
    body: JSON.stringify(body),
  })
  const written = (await answer.json()) as Body
  if (!answer.ok) throw new Error(`${path}: ${JSON.stringify(written)}`)
  return written
}
