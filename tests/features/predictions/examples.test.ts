import { existsSync } from 'node:fs'
import { readFile } from 'node:fs/promises'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'

import { type Field, openField } from '../comparisons/evenings.ts'

/**
 * A request and its answer, kept in openapi/examples for readers of the API. Ids, which every run
 * makes anew, stand there as constants. After a change that is meant: `npx vitest run -u` on this file.
 */
const FOLDER = new URL('../../../openapi/examples/', import.meta.url)

let field: Field
let light: string
let plain: string

beforeAll(async () => {
  field = await openField()
  const powerplantId = await add({
    kind: 'powerplant',
    maker: 'Marrow Engines',
    model: 'M-140',
    drive: 'twoStroke',
    ratedRpm: 7800,
    reductionRatio: 2.68,
  })
  const frameId = await add({ kind: 'frame', maker: 'Osier Frames', model: 'Hoop' })
  const propeller = (model: string, diameterCm: number, amount: number) => ({
    kind: 'propeller',
    maker: 'Tallis Propellers',
    model,
    diameterCm,
    price: { amount, currency: 'EUR', asOf: '2026-03-01' },
  })
  const setup = async (body: object) =>
    (await post('/v1/setups', { powerplantId, frameId, propellerId: await add(body) })).id
  light = await setup(propeller('Sweep carbon', 130, 520))
  plain = await setup(propeller('Sweep', 125, 310))
  for (const [evening, s] of [0, 1, 2, 0.4, 1.4, 2.4].entries()) {
    await field.fly(evening % 3, [
      { setupId: light, climbsS: [45 + s, 45.6 + s / 2], burnsS: [600 + 4 * s] },
      { setupId: plain, climbsS: [50 + s, 49.4 + s], burnsS: [560 + 3 * s] },
    ])
  }
  await field.app.fits.refresh()
})

afterAll(() => field?.close())

async function post(path: string, body: object) {
  const { authorization } = field.pilots[0]!
  const answer = await field.request.post(path).set(authorization).send(body)
  expect(answer.status).toBe(201)
  return answer.body
}

const add = async (body: object): Promise<string> => (await post('/v1/components', body)).id

/** Sends the request and holds it with its answer against the example of that operation. */
async function exchange(operationId: string, path: string): Promise<void> {
  const { status, body } = await field.get<object>(path)
  expect(status).toBe(200)
  const file = new URL(`${operationId}.json`, FOLDER)
  const example = { request: { method: 'GET', path, headers: {} }, answer: { status, body } }
  const stored: unknown = existsSync(file) ? JSON.parse(await readFile(file, 'utf8')) : null
  const shown = settled(JSON.parse(withConstantIds(JSON.stringify(example))), stored)
  await expect(`${JSON.stringify(shown, null, 2)}\n`).toMatchFileSnapshot(file.pathname)
}

function withConstantIds(text: string): string {
  const ids = new Map<string, string>()
  const constantFor = (pattern: string) => (id: string) => {
    if (!ids.has(id)) ids.set(id, `${pattern}${String(ids.size + 1).padStart(12, '0')}`)
    return ids.get(id)!
  }
  return text
    .replaceAll(/[0-9a-f]{8}-[0-9a-f]{4}-4[0-9a-f-]{21}/g, constantFor('5e7a9d10-0000-4000-8000-'))
    .replaceAll(/fit_[0-9a-f]{32}/g, constantFor('fit_5e7a9d10000040008000'))
}

/**
 * The answer with its numbers cut to four digits, or as the stored example has them where they agree to
 * half a per cent: the ids that evidence is sorted by are new in every run, and the search for the
 * variances ends a little elsewhere.
 */
function settled(value: unknown, stored: unknown): unknown {
  if (typeof value === 'number') {
    const isClose =
      typeof stored === 'number' && Math.abs(value - stored) <= 0.005 * Math.abs(value)
    return isClose ? stored : Number(value.toPrecision(4))
  }
  if (typeof value !== 'object' || value === null) return value
  const at = (key: string) => (stored as Record<string, unknown> | null | undefined)?.[key]
  if (Array.isArray(value)) return value.map((item, i) => settled(item, at(String(i))))
  return Object.fromEntries(
    Object.entries(value).map(([key, item]) => [key, settled(item, at(key))]),
  )
}

describe('the examples of the API', () => {
  it('are what a prediction answers', async () => {
    const own =
      'flatAreaM2=24&glideRatio=7.1&glideSource=measured&trimSpeedMps=10.6&trimAtAllUpMassKg=122'
    const air = 'elevationM=600&temperatureC=25&qnhHPa=1018&relativeHumidityPct=50'
    await exchange(
      'predictSetup',
      `/v1/setups/${light}/predictions?allUpMassKg=124&${air}&${own}&tankL=12&reserveMin=30`,
    )
  })
})
