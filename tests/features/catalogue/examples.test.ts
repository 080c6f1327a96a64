import { afterAll, beforeAll, describe, expect, it } from 'vitest'

import { startTestApp, type TestApp } from '../../support/app.ts'

/**
 * One request and answer per operation, kept in openapi/examples for readers of the API. Ids and
 * times, which every run makes anew, stand there as constants. After a change that is meant:
 * `npx vitest run -u` on this file.
 */
const FOLDER = new URL('../../../openapi/examples/', import.meta.url)

let service: TestApp
let token: string
const constants = new Map<string, string>()

beforeAll(async () => {
  service = await startTestApp()
  token = (await service.signUp()).token
})

afterAll(async () => service?.close())

/** Sends the request and holds it with its answer against the example of that operation. */
async function exchange(operationId: string, method: 'get' | 'post', path: string, body?: object) {
  const request = service.request[method](path)
  if (method === 'post') request.auth(token, { type: 'bearer' })
  const answer = await request.send(body)
  const headers = method === 'post' ? { authorization: 'Bearer …' } : {}
  const { status, headers: received, body: answered } = answer
  const example = {
    request: { method: method.toUpperCase(), path, headers, body },
    answer: { status, location: received.location, body: answered },
  }
  const text = `${JSON.stringify(example, sixDigits, 2)}\n`
    .replaceAll(/[0-9a-f]{8}-[0-9a-f]{4}-4[0-9a-f-]{21}/g, constantId)
    .replaceAll(/\d{4}-\d\d-\d\dT[\d:.]+Z/g, '2026-05-18T07:30:00.000Z')
  expect(status).toBe(method === 'post' ? 201 : 200)
  await expect(text).toMatchFileSnapshot(new URL(`${operationId}.json`, FOLDER).pathname)
  return answered
}

function constantId(id: string): string {
  const next = `5e7a9d10-0000-4000-8000-${String(constants.size + 101).padStart(12, '0')}`
  if (!constants.has(id)) constants.set(id, next)
  return constants.get(id)!
}

function sixDigits(_key: string, value: unknown) {
  return typeof value === 'number' ? Number(value.toPrecision(6)) : value
}

async function add(body: object): Promise<string> {
  const answer = await service.request
    .post('/v1/components')
    .auth(token, { type: 'bearer' })
    .send(body)
    .expect(201)
  return answer.body.id
}

describe('the examples of the API', () => {
  it('are what the catalogue answers', async () => {
    const { id } = await exchange('addComponent', 'post', '/v1/components', {
      kind: 'propeller',
      maker: 'Tallis Propellers',
      model: 'Sweep 2',
      diameterCm: 125,
      pitchCm: 58,
      blades: 2,
      material: 'carbon',
      price: { amount: 310, currency: 'EUR', asOf: '2026-03-01' },
    })
    await exchange('getComponent', 'get', `/v1/components/${id}`)
    await exchange('listComponents', 'get', '/v1/components?q=sweep%20talis&kind=propeller&limit=5')
    const setup = await exchange('addSetup', 'post', '/v1/setups', {
      powerplantId: await add({
        kind: 'powerplant',
        maker: 'Marrow Engines',
        model: 'M-140',
        drive: 'twoStroke',
      }),
      propellerId: id,
      frameId: await add({ kind: 'frame', maker: 'Osier Frames', model: 'Hoop' }),
    })
    await exchange('getSetup', 'get', `/v1/setups/${setup.id}`)
    await exchange('listSetups', 'get', '/v1/setups?q=m140%20osier%20125&limit=5')
  })

  it('are what the calculator of the air answers', async () => {
    const query = 'elevationM=600&temperatureC=25&qnhHPa=1018'
    await exchange('getAtmosphere', 'get', `/v1/atmosphere?${query}`)
  })
})
