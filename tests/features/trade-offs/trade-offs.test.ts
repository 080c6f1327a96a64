import { randomUUID } from 'node:crypto'

import { afterAll, beforeAll, describe, expect, it } from 'vitest'

import { Pcg32 } from '../../../src/core/random/pcg32.ts'
import type { TradeOff } from '../../../src/features/trade-offs/schema.ts'
import { type Field, openField } from '../comparisons/evenings.ts'

let field: Field
let strong: string
let thrifty: string
let neither: string
let single: string
let unsafe: string

const random = new Pcg32(31)
const around = (seconds: number) =>
  [0, 1, 2].map(() => Number((seconds * (1 + 0.015 * random.normal())).toFixed(1)))

beforeAll(async () => {
  field = await openField(3)
  strong = await field.setup()
  thrifty = await field.setup()
  neither = await field.setup()
  single = await field.setup()
  unsafe = await field.setup()
  for (let evening = 0; evening < 9; evening++) {
    await field.fly(evening % 3, [
      { setupId: strong, climbsS: around(38), burnsS: around(400) },
      { setupId: thrifty, climbsS: around(48), burnsS: around(560) },
      { setupId: neither, climbsS: around(55), burnsS: around(420) },
      { setupId: unsafe, climbsS: around(36), burnsS: around(600) },
      ...(evening === 0 ? [{ setupId: single, climbsS: around(40), burnsS: around(500) }] : []),
    ])
  }
  await field.db.pool.query(
    "INSERT INTO safety_report (setup_id, state, reason) VALUES ($1, 'doNotFly', 'Cracked hub.')",
    [unsafe],
  )
  await field.app.fits.refresh()
})

afterAll(() => field.close())

const read = (query = '') => field.get<TradeOff>(`/v1/trade-offs?elevationM=0${query}`)

describe('GET /v1/trade-offs', () => {
  it('puts on the front what nothing beats in both, and says how sure that is', async () => {
    const { status, body } = await read()
    expect(status).toBe(200)
    const of = new Map(body.setups.map((setup) => [setup.setupId, setup]))
    expect(of.get(strong)).toMatchObject({ onFront: true })
    expect(of.get(thrifty)).toMatchObject({ onFront: true })
    expect(of.get(neither)).toMatchObject({ onFront: false })
    expect(of.get(strong)!.probabilityOnFront).toBeGreaterThan(0.95)
    expect(of.get(neither)!.probabilityOnFront).toBeLessThan(0.2)
    expect(of.get(strong)).toMatchObject({
      verdict: 'onFront',
      withoutInterested: { verdict: 'onFront', changes: false },
      robust: { verdict: 'onFront', agrees: true },
    })
    expect(of.get(neither)!.climbRateMps.value).toBeLessThan(of.get(thrifty)!.climbRateMps.value)
  })

  it('gives the same answer again, bit for bit', async () => {
    expect((await read()).text).toBe((await read()).text)
  })

  it('leaves out what rests on one session, and sets aside what was reported unsafe', async () => {
    const { body } = await read()
    expect(body.leftOut.map(({ setupId }) => setupId)).toEqual([single])
    expect(body.leftOut[0]!.refused.reasonCode).toBe('oneSession')
    expect(body.setAside.map(({ setupId }) => setupId)).toEqual([unsafe])
    expect(body.cautions[0]).toMatch(/^Do not fly/)
  })

  it('weighs the setups it is asked for, and refuses those it does not know', async () => {
    const { body } = await read(`&setups=${thrifty},${neither}&massClass=100to120`)
    expect(body.setups.map(({ setupId }) => setupId)).toEqual([thrifty, neither])
    const { status } = await read(`&setups=${thrifty},${randomUUID()}`)
    expect(status).toBe(422)
  })

  it('says where the front hangs on people with an interest, and can leave them out', async () => {
    for (let evening = 0; evening < 12; evening++) {
      await field.fly(
        evening % 3,
        [
          { setupId: thrifty, climbsS: around(48), burnsS: around(560) },
          { setupId: neither, climbsS: around(34), burnsS: around(640) },
        ],
        { interest: 'maker' },
      )
    }
    await field.app.fits.refresh()
    const { body } = await read()
    const shown = body.setups.find(({ setupId }) => setupId === neither)!
    expect(shown.withoutInterested!.changes).toBe(true)
    expect(shown.withoutInterested!.probabilityOnFront).toBeLessThan(shown.probabilityOnFront)
    expect(shown.sentence).toMatch('Without submissions by people with an interest')
    const rest = (await read('&excludeInterested=true')).body
    const left = rest.setups.find(({ setupId }) => setupId === neither)!
    expect(left.probabilityOnFront).toBe(shown.withoutInterested!.probabilityOnFront)
  })
})
