import { randomUUID } from 'node:crypto'

import { afterAll, beforeAll, describe, expect, it } from 'vitest'

import { Pcg32 } from '../../../src/core/random/pcg32.ts'
import type { Attribution } from '../../../src/features/attributions/schema.ts'
import type { Comparison } from '../../../src/features/comparisons/schema.ts'
import { type Field, openField } from '../comparisons/evenings.ts'
import { partBox } from './parts.ts'

let field: Field
let box: Awaited<ReturnType<typeof partBox>>
const ids = new Map<string, string>()

/** Seconds for 100 m: the parts act on them in proportion. */
const SECONDS: Readonly<Record<string, number>> = {
  e1: 50,
  e2: 42,
  p1: 1,
  p2: 0.95,
  f1: 1,
  f2: 1.01,
}

const secondsOf = (setup: string) => setup.split('-').reduce((all, part) => all * SECONDS[part]!, 1)

beforeAll(async () => {
  field = await openField(4)
  box = await partBox(field.db)
  const setups = ['e1-p1-f1', 'e2-p1-f1', 'e1-p2-f1', 'e2-p2-f2', 'e1-p1-f2', 'e2-p2-f1']
  for (const setup of setups) {
    const [engine, propeller, frame] = setup.split('-')
    ids.set(setup, await box.setup(engine!, propeller!, frame!))
  }
  // Two parts that only ever came together.
  ids.set('bundle', await box.setup('e1', 'p9', 'f9'))
  const random = new Pcg32(3)
  const climbs = (seconds: number) =>
    [0, 1, 2].map(() => Number((seconds * (1 + 0.01 * random.normal())).toFixed(1)))
  for (let evening = 0; evening < 24; evening++) {
    const a = setups[evening % 6]!
    const b = setups[(evening + 1 + (evening % 2)) % 6]!
    const flown = [a, b].map((setup) => ({
      setupId: ids.get(setup)!,
      climbsS: climbs(secondsOf(setup)),
    }))
    const bundle = evening % 6 === 0 ? [{ setupId: ids.get('bundle')!, climbsS: climbs(46) }] : []
    await field.fly(evening % 4, [...flown, ...bundle])
  }
  await field.app.fits.refresh()
})

afterAll(() => field.close())

const read = (from: string, to: string, metric = 'climbRate') =>
  field.get<Attribution>(
    `/v1/attributions?metric=${metric}&from=${ids.get(from)}&to=${ids.get(to)}`,
  )

describe('GET /v1/attributions', () => {
  it('takes a difference apart; the lines multiply to the difference that the comparison gives', async () => {
    const { status, body } = await read('e1-p1-f1', 'e2-p2-f2')
    expect(status).toBe(200)
    expect(body.lines.map(({ part }) => part)).toEqual([
      'powerplant',
      'propeller',
      'frame',
      'unexplained',
    ])
    const product = body.lines.reduce((all, line) => all * (1 + line.differencePercent! / 100), 1)
    expect(100 * (product - 1)).toBeCloseTo(body.total.differencePercent!, 6)
    const pair = await field.get<Comparison>(
      `/v1/comparisons?metric=climbRate&setups=${ids.get('e2-p2-f2')},${ids.get('e1-p1-f1')}`,
    )
    const [compared] = pair.body.pairs
    expect(compared!.differencePercent).toBeCloseTo(body.total.differencePercent!, 9)
    expect(compared!.interval95Percent).toEqual(body.total.interval95Percent)
  })

  it('finds the engine behind most of it, with an interval that leaves out zero', async () => {
    const { body } = await read('e1-p1-f1', 'e2-p1-f1')
    const [engine, propeller] = body.lines
    expect(engine!.interval95Percent![0]).toBeGreaterThan(5)
    expect(engine!.sentence).toMatch(/^The engine brings \+\d/)
    expect(body.total.verdict).toBe('aBetter')
    expect([engine!.finding, propeller!.finding]).toEqual(['raises', 'nothing'])
    expect(engine).toMatchObject({
      withoutInterested: { finding: 'raises', changes: false },
      robust: { finding: 'raises', agrees: true },
    })
    expect(engine!.to!.name).toBe('Invented e2')
    expect(propeller).toMatchObject({ same: true, differencePercent: 0, interval95Percent: [0, 0] })
    expect(body.partsAddUp!.degreesOfFreedom).toBeGreaterThan(0)
  })

  it('refuses parts that always changed together, and gives them together', async () => {
    const { body } = await read('e1-p1-f1', 'bundle')
    const byPart = new Map(body.lines.map((line) => [line.part, line]))
    expect(byPart.get('propeller')!.refused!.reasonCode).toBe('neverSeparated')
    expect(byPart.get('frame')!.refused!.reasonCode).toBe('neverSeparated')
    expect(byPart.get('together')).toMatchObject({ kinds: ['propeller', 'frame'] })
    expect(byPart.get('together')!.interval95Percent).toBeDefined()
  })

  it('refuses the whole where nothing links the setups, and says why', async () => {
    const stranger = await field.setup()
    ids.set('stranger', stranger)
    const { status, body } = await read('e1-p1-f1', 'stranger')
    expect(status).toBe(200)
    expect(body.total.refused!.reasonCode).toBe('noEvidence')
    expect(body.lines).toEqual([])
  })

  it('names the parameter that is wrong', async () => {
    const setup = ids.get('e1-p1-f1')!
    const same = await field.get<{ errors: { pointer: string }[] }>(
      `/v1/attributions?metric=climbRate&from=${setup}&to=${setup}`,
    )
    expect(same.status).toBe(400)
    expect(same.body.errors[0]!.pointer).toBe('/to')
    const unknown = await field.get<{ errors: { pointer: string }[] }>(
      `/v1/attributions?metric=climbRate&from=${setup}&to=${randomUUID()}`,
    )
    expect(unknown.status).toBe(422)
    expect(unknown.body.errors[0]!.pointer).toBe('/to')
  })
})

describe('people with an interest behind an attribution', () => {
  it('can be left out, and total and lines say what that changes', async () => {
    const random = new Pcg32(4)
    const climbs = (seconds: number) =>
      [0, 1, 2].map(() => Number((seconds * (1 + 0.01 * random.normal())).toFixed(1)))
    for (let evening = 0; evening < 16; evening++) {
      const flown = ['e1-p1-f1', 'e2-p1-f1'].map((setup) => ({
        setupId: ids.get(setup)!,
        climbsS: climbs(setup.startsWith('e2') ? 62 : 50),
      }))
      await field.fly(evening % 4, flown, { interest: 'dealer' })
    }
    await field.app.fits.refresh()
    const { body: all } = await read('e1-p1-f1', 'e2-p1-f1')
    expect(all.otherFits).toBe('made')
    expect(all.total.withoutInterested).toEqual({ verdict: 'aBetter', changes: true })
    expect(all.total.sentence).toMatch('with an interest, the change is for the better')
    const engine = all.lines[0]!
    expect(engine.finding).not.toBe('raises')
    expect(engine.withoutInterested).toEqual({ finding: 'raises', changes: true })
    const path = `/v1/attributions?metric=climbRate&from=${ids.get('e1-p1-f1')}&to=${ids.get('e2-p1-f1')}`
    const { body: rest } = await field.get<Attribution>(`${path}&excludeInterested=true`)
    expect(rest.total.verdict).toBe('aBetter')
    expect(rest.total.withoutInterested!.changes).toBe(false)
  })
})
