import { afterAll, beforeAll, describe, expect, it } from 'vitest'

import { type SignedUp, signUp } from '../../support/sign-up.ts'
import { type Field, openField, session } from './evenings.ts'

interface Row {
  readonly setupId: string
  readonly safety: { readonly state: string; readonly advisories: readonly string[] }
}
interface Ranked {
  readonly ranked: readonly Row[]
  readonly setAside: readonly Row[]
  readonly cautions: readonly string[]
}

let field: Field
let moderator: SignedUp
/** The first climbs fastest. */
let setups: readonly [string, string, string]

/** Three setups flown side by side on four evenings by two pilots. */
beforeAll(async () => {
  field = await openField(3)
  moderator = await signUp(field, 'moderator')
  setups = [await field.setup(), await field.setup(), await field.setup()]
  for (const evening of [0, 1, 2, 3]) {
    await field.fly(
      evening % 2,
      setups.map((setupId, i) => {
        const slower = 40 + 3 * i + evening / 10
        return { setupId, climbsS: [slower, slower + 0.4, slower - 0.3] }
      }),
    )
  }
  await field.app.fits.refresh()
})
afterAll(() => field?.close())

const rank = async () =>
  (await field.get<Ranked>('/v1/rankings?metric=climbRate&massClass=100to120')).body

const idsOf = (rows: readonly Row[]) => rows.map(({ setupId }) => setupId)

/** A submission of the third pilot with the clearance that was seen; gives its id. */
async function measure(setupId: string, contactSeen: boolean): Promise<string> {
  const [first] = (session([{ setupId }]) as { entries: object[] }).entries
  const run = {
    kind: 'tipClearance',
    staticClearanceMm: 30,
    loadedClearanceMm: 22,
    contactSeen,
    loadN: 110,
  }
  return field.fly(2, [], { entries: [{ ...first, runs: [run] }] })
}

async function reviewOf(setupId: string): Promise<string> {
  const { body } = await field.request
    .get(`/v1/reviews?state=inForce&setupId=${setupId}`)
    .set(moderator.authorization)
    .expect(200)
  return body.items[0].id
}

const lift = (id: string, who: SignedUp) =>
  field.request
    .post(`/v1/reviews/${id}/decisions`)
    .set(who.authorization)
    .send({ decision: 'lift', reason: 'Mounts replaced, 35 mm remain under full load.' })

describe('a setup whose propeller touched', () => {
  it('is set aside from the very next ranking on, until a moderator lifts it with a reason', async () => {
    const [best, second, third] = setups
    const before = await field.request.get('/v1/rankings?metric=climbRate&massClass=100to120')
    expect(idsOf(before.body.ranked)).toEqual([best, second, third])

    const id = await measure(best, true) // no refresh of the fits in between
    const grounded = await field.request
      .get('/v1/rankings?metric=climbRate&massClass=100to120')
      .set('if-none-match', before.headers.etag!)
      .expect(200)
    expect(idsOf(grounded.body.ranked)).toEqual([second, third])
    expect(idsOf(grounded.body.setAside)).toEqual([best])
    expect(grounded.body.cautions[0]).toMatch(/^Do not fly/)

    await field.request
      .delete(`/v1/submissions/${id}`)
      .set(field.pilots[2]!.authorization)
      .expect(204)
    await field.app.fits.refresh()
    expect(idsOf((await rank()).setAside)).toEqual([best]) // withdrawing lifts nothing

    const review = await reviewOf(best)
    for (const who of [...field.pilots, await signUp(field, 'dealer')]) {
      await lift(review, who).expect(403)
    }
    await lift(review, moderator).expect(201)
    const after = await rank()
    expect(idsOf(after.ranked)).toEqual([best, second, third])
    expect(after.setAside).toEqual([])
    const { body } = await field.request.get(`/v1/setups/${best}`).expect(200)
    expect(body.safety).toMatchObject({
      state: 'none',
      reports: [
        { state: 'doNotFly', liftedReason: 'Mounts replaced, 35 mm remain under full load.' },
      ],
    })
  })

  it('shows it first wherever it appears: comparison, catalogue list and search', async () => {
    const [, , third] = setups
    await measure(third, true)
    const { body } = await field.get<{ setups: Row[]; cautions: string[] }>(
      `/v1/comparisons?metric=climbRate&allUpMassKg=120&setups=${setups.join(',')}`,
    )
    expect(body.cautions[0]).toMatch(/^Do not fly/)
    expect(body.setups.find(({ setupId }) => setupId === third)!.safety).toMatchObject({
      state: 'doNotFly',
      advisories: [expect.stringMatching(/touched/)],
    })
    for (const path of ['/v1/setups?limit=50', '/v1/setups?q=invented&limit=50']) {
      const list = await field.get<{ items: { id: string; safety: { state: string } }[] }>(path)
      const states = list.body.items.map(({ id, safety }) => [id, safety.state])
      expect(Object.fromEntries(states)).toEqual({
        [setups[0]]: 'none',
        [setups[1]]: 'none',
        [third]: 'doNotFly',
      })
    }
  })

  it('stays in the ranking with a clearance that is only measured', async () => {
    const [, second] = setups
    await measure(second, false)
    expect(idsOf((await rank()).ranked)).toContain(second)
  })
})
