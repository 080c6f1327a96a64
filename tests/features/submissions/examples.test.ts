import { afterAll, beforeAll, describe, expect, it } from 'vitest'

import type { NewSubmission } from '../../../src/features/submissions/schema.ts'
import {
  CLIMB,
  type Desk,
  ENERGY_USE,
  FUEL_BURN,
  LEVEL_SPEED,
  type Pilot,
  SINK,
  SOUND_LEVEL,
  STATIC_PULL,
  scenarioA,
  startDesk,
} from './desk.ts'

/**
 * One request and answer per operation, kept in openapi/examples for readers of the API. What a run
 * of the service makes different each time stands there as a constant; numbers are cut to six
 * digits. After a change that is meant: `npx vitest run -u` on this file.
 */
const FOLDER = new URL('../../../openapi/examples/', import.meta.url)
const TIME = '2026-05-18T07:30:00.000Z'
const SETUP = '5e7a9d10-0000-4000-8000-000000000001'
const SUBMISSION = '5e7a9d10-0000-4000-8000-000000000002'
const ACCOUNT = '5e7a9d10-0000-4000-8000-000000000003'

let desk: Desk
let pilot: Pilot
let setupId: string
let id: string

beforeAll(async () => {
  desk = await startDesk()
  pilot = await desk.signUp()
  setupId = await desk.setup({ reductionRatio: 2.8, ratedPowerKw: 15 })
})
afterAll(() => desk.close())

interface Exchange {
  readonly method: 'get' | 'post' | 'delete'
  readonly path: string
  readonly body?: object
  readonly headers?: Readonly<Record<string, string>>
  /** Sent by the owner of the submission. */
  readonly signedIn?: boolean
}

/** Sends the request and holds it with its answer against the example of that operation. */
async function exchange(operationId: string, status: number, sent: Exchange) {
  const { method, path, body, headers = {}, signedIn = false } = sent
  const request = desk.request[method](path).set(headers)
  if (signedIn) request.auth(pilot.token, { type: 'bearer' })
  const answer = await request.send(body)
  const shown = signedIn ? { ...headers, authorization: 'Bearer …' } : headers
  const example = {
    request: { method: method.toUpperCase(), path, headers: shown, body },
    answer: {
      status: answer.status,
      location: answer.headers.location,
      body: answer.status === 204 ? undefined : answer.body,
    },
  }
  id ??= answer.body.id
  const text = `${JSON.stringify(example, sixDigits, 2)}\n`
    .replaceAll(setupId, SETUP)
    .replaceAll(id, SUBMISSION)
    .replaceAll(pilot.accountId, ACCOUNT)
    .replaceAll(/\d{4}-\d\d-\d\dT[\d:.]+Z/g, TIME)
  expect(answer.status).toBe(status)
  await expect(text).toMatchFileSnapshot(new URL(`${operationId}.json`, FOLDER).pathname)
}

function sixDigits(_key: string, value: unknown) {
  return typeof value === 'number' ? Number(value.toPrecision(6)) : value
}

describe('the examples of the API', () => {
  it('are what the service answers, from the first submission to its withdrawal', async () => {
    const first: NewSubmission = scenarioA(setupId, [CLIMB, FUEL_BURN, STATIC_PULL, SOUND_LEVEL])
    const corrected = { ...first, conditions: { ...first.conditions, temperatureC: 24 } }
    const path = '/v1/submissions'
    await exchange('createSubmission', 201, {
      method: 'post',
      path,
      headers: { 'idempotency-key': '7c0e4b6e-6a53-4d5f-9a43-0f6f2f0d9b11' },
      body: first,
      signedIn: true,
    })
    await exchange('getSubmission', 200, { method: 'get', path: `${path}/${id}` })
    await exchange('listSubmissions', 200, {
      method: 'get',
      path: `${path}?setupId=${setupId}&limit=1`,
    })
    await exchange('reviseSubmission', 201, {
      method: 'post',
      path: `${path}/${id}/revisions`,
      body: corrected,
      signedIn: true,
    })
    await exchange('listRevisions', 200, {
      method: 'get',
      path: `${path}/${id}/revisions?limit=1`,
      signedIn: true,
    })
    await exchange('withdrawSubmission', 204, {
      method: 'delete',
      path: `${path}/${id}`,
      signedIn: true,
    })
  })

  it('are what the calculator answers', async () => {
    const runs = [CLIMB, ENERGY_USE, SINK, LEVEL_SPEED]
    const { entries, conditions, ...session } = scenarioA(setupId, runs)
    const described = entries.map(({ setupId: _, ...entry }) => ({
      equipment: { drive: 'electric', propellerDiameterCm: 125, reductionRatio: 1 },
      ...entry,
    }))
    await exchange('normalize', 200, {
      method: 'post',
      path: '/v1/normalizations?crossCheck=true',
      body: { ...session, conditions: { ...conditions, airMotion: 'calm' }, entries: described },
    })
  })
})
