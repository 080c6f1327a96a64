import fc from 'fast-check'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'

import {
  CLIMB,
  type Desk,
  FUEL_BURN,
  LEVEL_SPEED,
  type Pilot,
  SINK,
  scenarioA,
  startDesk,
} from './desk.ts'

let desk: Desk
let pilot: Pilot
let setupId: string

beforeAll(async () => {
  desk = await startDesk()
  pilot = await desk.signUp()
  setupId = await desk.setup()
})
afterAll(() => desk.close())

type Json = null | boolean | number | string | Json[] | { [key: string]: Json }

const FULL = () => {
  const body = scenarioA(setupId, [
    { ...CLIMB, rpm: 8400, uncertainty: { durationS: 0.2 } },
    { ...FUEL_BURN, fuelTemperatureC: 20 },
    SINK,
    LEVEL_SPEED,
  ])
  return { ...structuredClone(body), note: 'a note' } as unknown as Json
}

const extremes = [0, -1, 1, 5e-324, -1e-300, 1e15, 2 ** 53, 1e300, -1.7976931348623157e308]
const texts = ['', '\0', '\ud800', 'NaN', '1e5', '2026-05-17', '../..', '🪂', 'á'.normalize('NFD')]

const anything: fc.Arbitrary<Json> = fc.oneof(
  fc.constantFrom<Json>(...extremes, ...texts, null, true, [], {}, [[[[]]]], { a: { a: {} } }),
  fc.double({ noNaN: true, noDefaultInfinity: true }),
  fc.string({ unit: 'binary', maxLength: 40 }),
  fc.jsonValue({ maxDepth: 3 }) as fc.Arbitrary<Json>,
)

/** Every place in a value, as the keys that lead there. */
function placesIn(value: Json, path: string[] = []): string[][] {
  if (typeof value !== 'object' || value === null) return [path]
  return [path, ...Object.entries(value).flatMap(([key, child]) => placesIn(child, [...path, key]))]
}

type Mutation =
  | { readonly kind: 'replace'; readonly place: number; readonly value: Json }
  | { readonly kind: 'scale'; readonly place: number; readonly factor: number }
  | { readonly kind: 'remove'; readonly place: number }
  | { readonly kind: 'add'; readonly place: number; readonly key: string; readonly value: Json }
  | { readonly kind: 'copy'; readonly place: number; readonly from: number }

const mutation: fc.Arbitrary<Mutation> = fc.oneof(
  fc.record({ kind: fc.constant('replace' as const), place: fc.nat(), value: anything }),
  fc.record({
    kind: fc.constant('scale' as const),
    place: fc.nat(),
    factor: fc.constantFrom(0.1, 0.3048, 0.9, 1.1, 3.6, 9.81, -1, 1e6),
  }),
  fc.record({ kind: fc.constant('remove' as const), place: fc.nat() }),
  fc.record({
    kind: fc.constant('add' as const),
    place: fc.nat(),
    key: fc.oneof(fc.constantFrom('uncertainty', 'id', '', 'a/b~c', 'constructor'), fc.string()),
    value: anything,
  }),
  fc.record({ kind: fc.constant('copy' as const), place: fc.nat(), from: fc.nat() }),
)

function mutated(body: Json, change: Mutation): Json {
  const places = placesIn(body)
  const path = places[change.place % places.length]!
  const at = (keys: readonly string[]): Json =>
    keys.reduce((node, key) => (node as Record<string, Json>)[key]!, body)
  const here = at(path)
  if (change.kind === 'add') {
    if (typeof here === 'object' && here !== null) {
      Object.defineProperty(here, change.key, {
        value: change.value,
        enumerable: true,
        configurable: true,
        writable: true,
      })
    }
    return body
  }
  const key = path.at(-1)
  if (key === undefined) return change.kind === 'replace' ? change.value : body
  const parent = at(path.slice(0, -1)) as Record<string, Json>
  if (change.kind === 'remove') delete parent[key]
  if (change.kind === 'replace') parent[key] = change.value
  if (change.kind === 'scale' && typeof here === 'number') parent[key] = here * change.factor
  if (change.kind === 'copy') {
    parent[key] = structuredClone(at(places[change.from % places.length]!))
  }
  return body
}

const mutations = fc.array(mutation, { minLength: 1, maxLength: 3 })

describe('whatever a client sends as a submission', () => {
  it('is answered without a 5xx, with pointers where it is refused, and can be read back where it is taken', async () => {
    const tally = { taken: 0, refused: 0 }
    await fc.assert(
      fc.asyncProperty(mutations, async (changes) => {
        const body = changes.reduce(mutated, FULL())
        const answer = await desk.request
          .post('/v1/submissions')
          .auth(pilot.token, { type: 'bearer' })
          .set('content-type', 'application/json')
          .send(JSON.stringify(body))
        expect(answer.status, JSON.stringify(answer.body)).toBeLessThan(500)
        if (answer.status !== 201) {
          tally.refused += 1
          expect([400, 413, 422]).toContain(answer.status)
          expect(answer.headers['content-type']).toMatch(/^application\/problem\+json/)
          return
        }
        tally.taken += 1
        const read = await desk.request
          .get(answer.headers.location!)
          .auth(pilot.token, { type: 'bearer' })
        expect({ status: read.status, body: read.body }).toEqual({ status: 200, body: answer.body })
        const shown = await desk.request.get(answer.headers.location!)
        expect(shown.status).toBe(200)
      }),
      { numRuns: 300 },
    )
    // Both ways were walked, or the property says nothing.
    expect(tally.taken).toBeGreaterThan(10)
    expect(tally.refused).toBeGreaterThan(100)
  })

  it('finds no 5xx in the calculator either', async () => {
    await fc.assert(
      fc.asyncProperty(mutations, async (changes) => {
        const answer = await desk.request
          .post('/v1/normalizations')
          .set('content-type', 'application/json')
          .send(JSON.stringify(changes.reduce(mutated, FULL())))
        expect(answer.status, JSON.stringify(answer.body)).toBeLessThan(500)
      }),
      { numRuns: 300 },
    )
  })
})
