import { afterAll, beforeAll, expect, it } from 'vitest'

import type { NewRun } from '../../../src/features/submissions/run-kinds.ts'
import { startTestApp, type TestAccount, type TestApp } from '../../support/app.ts'
import { makeRelease, readFile } from '../datasets/demo-release.ts'
import {
  CLIMB as CLIMB_RUN,
  type Desk,
  STATIC_PULL as PULL_RUN,
  scenarioA,
  startDesk,
} from '../submissions/desk.ts'

const PARTS = ['runs', 'systematic', 'setups', 'components']

let origin: Desk
let mirror: TestApp
let moderator: TestAccount
let files: Map<string, string>

/** Pilots who each fly one climb, others who each pull once, and a mirror of their release. */
beforeAll(async () => {
  origin = await startDesk()
  const setupId = await origin.setup()
  for (let pilot = 0; pilot < 6; pilot++) {
    await submit(scenarioA(setupId, [{ ...CLIMB_RUN, durationS: 50 + pilot } satisfies NewRun]))
    await submit(scenarioA(setupId, [{ ...PULL_RUN, thrustN: 590 + 5 * pilot } satisfies NewRun]))
  }
  const release = await makeRelease(origin)
  const read = async (part: string) =>
    [part, (await readFile(origin, release, `${part}.csv`)).toString()] as const
  files = new Map(await Promise.all(PARTS.map(read)))
  mirror = await startTestApp()
  moderator = await mirror.signUp('moderator')
  await send(mirror, moderator, files).expect(201)
})
afterAll(async () => {
  await mirror.close()
  await origin.close()
})

async function submit(body: object) {
  const { token } = await origin.signUp()
  await origin.request
    .post('/v1/submissions')
    .auth(token, { type: 'bearer' })
    .send(body)
    .expect(201)
}

function send(test: TestApp, { token }: Pick<TestAccount, 'token'>, parts: Map<string, string>) {
  const asked = test.request.post('/v1/imports').auth(token, { type: 'bearer' })
  for (const [part, text] of parts) {
    asked.attach(part, Buffer.from(text), { filename: `${part}.csv`, contentType: 'text/csv' })
  }
  return asked
}

/** A release that holds only so many of the sessions of a kind. */
function some(kind: string, count: number): Map<string, string> {
  const [header, ...lines] = files.get('runs')!.trim().split('\r\n')
  const runs = lines.filter((line) => line.split(',').includes(kind)).slice(0, count)
  const keys = runs.map((line) => line.split(',')[0]!)
  const [effects, ...rows] = files.get('systematic')!.trim().split('\r\n')
  const systematic = rows.filter((row) => keys.includes(row.split(',')[0]!))
  const text = (all: (string | undefined)[]) => `${all.join('\r\n')}\r\n`
  return new Map([
    ...files,
    ['runs', text([header, ...runs])],
    ['systematic', text([effects, ...systematic])],
  ])
}

it('sessions of one run are known when the same release comes with other bytes', async () => {
  const again = new Map([...files, ['runs', `${files.get('runs')}\r\n`]])
  const { body } = await send(mirror, moderator, again).expect(409)
  expect(body.detail).toContain('12 of the 12 sessions count already through import')
})

it('one climb is known by its result and its uncertainties', async () => {
  const { body } = await send(mirror, moderator, some('climb', 1)).expect(409)
  expect(body.detail).toContain('1 of the 1 sessions count already')
})

it('one pull may be alike by chance, two are not', async () => {
  const { body } = await send(mirror, moderator, some('staticPull', 2)).expect(409)
  expect(body.detail).toContain('2 of the 2 sessions count already')
  await send(mirror, moderator, some('staticPull', 1)).expect(201)
})

it('they are known on the server they were submitted to', async () => {
  const admin = await origin.signUp('admin')
  const again = new Map([...files, ['runs', `${files.get('runs')}\r\n`]])
  const { body } = await send(origin, admin, again).expect(409)
  expect(body.detail).toContain('12 of the 12 sessions were submitted to this server')
})
