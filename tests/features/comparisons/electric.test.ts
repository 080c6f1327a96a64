import { afterAll, beforeAll, describe, expect, it } from 'vitest'

import type { Comparison, Ranking } from '../../../src/features/comparisons/schema.ts'
import type { Prediction } from '../../../src/features/predictions/schema.ts'
import { insertSetup } from '../submissions/desk.ts'
import { type Field, openField } from './evenings.ts'

let field: Field
let thrifty: string
let thirsty: string
let burning: string

/** Three pilots, six evenings: the thrifty one flies about 620 s on 700 Wh, the thirsty one about 540 s. */
beforeAll(async () => {
  field = await openField()
  thrifty = await insertSetup(field.db, { drive: 'electric' })
  thirsty = await insertSetup(field.db, { drive: 'electric' })
  burning = await field.setup()
  for (const [evening, s] of [0, 3, 6, 1, 4, 7].entries()) {
    await field.fly(evening % 3, [
      { setupId: thrifty, batteriesS: [620 + s, 624 - s], pullsN: [600 + s, 598] },
      { setupId: thirsty, batteriesS: [540 + s, 541], pullsN: [640, 641 - s] },
      { setupId: burning, burnsS: [600 + s], pullsN: [700 + s] },
    ])
  }
  await field.app.fits.refresh()
})

afterAll(() => field.close())

describe('electric power in level flight', () => {
  it('compares what setups draw from their batteries, less being better', async () => {
    const path = `/v1/comparisons?metric=electricPower&setups=${thrifty},${thirsty}&allUpMassKg=120`
    const { body, status } = await field.get<Comparison>(path)
    expect(status).toBe(200)
    expect(body).toMatchObject({ unit: 'W', better: 'lower', equivalenceMarginPercent: 5 })
    const [pair] = body.pairs
    expect(pair!.verdict).toBe('aBetter')
    // 540/620: the same energy in a longer time.
    expect(pair!.differencePercent).toBeCloseTo(100 * (541.5 / 622 - 1), 0)
    expect(pair!.equivalents!.endurancePercent).toBeCloseTo(
      100 / (1 + pair!.differencePercent! / 100) - 100,
      9,
    )
    expect(pair!.sentence).toMatch('draws less from its battery in level flight than')
    // 3600 × 700 Wh / 622 s, flown 100 m up.
    expect(body.setups[0]!.value).toBeGreaterThan(3900)
    expect(body.setups[0]!.value).toBeLessThan(4100)
    expect(body.cautions.join(' ')).toMatch('A battery flown empty')
  })

  it('ranks electric setups, and leaves the others out', async () => {
    const { body } = await field.get<Ranking>('/v1/rankings?metric=electricPower')
    expect(body.ranked.map(({ setupId }) => setupId)).toEqual([thrifty, thirsty])
    expect(body.sentence).toMatch('has the lowest electric power in level flight')
    const path = `/v1/comparisons?metric=electricPower&setups=${thrifty},${burning}`
    expect((await field.get<Comparison>(path)).body.pairs[0]!.reasonCode).toBe('noEvidence')
  })

  it('is drawn and attributed as other metrics are', async () => {
    const drawn = await field.request
      .get(`/v1/comparisons.svg?metric=electricPower&setups=${thrifty},${thirsty}`)
      .buffer(true)
    expect(drawn.status).toBe(200)
    expect(String(drawn.text ?? drawn.body)).toMatch('Electric power in level flight, W')
    const { status, body } = await field.get<{ total: { verdict: string } }>(
      `/v1/attributions?metric=electricPower&from=${thirsty}&to=${thrifty}`,
    )
    expect(status).toBe(200)
    expect(body.total.verdict).toBe('aBetter')
  })

  it('is predicted with static thrust, as the comparison says where nothing is left open', async () => {
    const query =
      'allUpMassKg=120&elevationM=0&temperatureC=15&qnhHPa=1013.25&relativeHumidityPct=0' +
      '&flatAreaM2=24&glideRatio=7&glideSource=measured&trimSpeedMps=10.5&trimAtAllUpMassKg=120' +
      '&allUpMassUncertaintyKg=0&glideUncertainty=0&trimSpeedUncertaintyMps=0' +
      '&temperatureUncertaintyK=0&qnhUncertaintyHPa=0&relativeHumidityUncertaintyPct=0'
    const { body } = await field.get<Prediction>(`/v1/setups/${thrifty}/predictions?${query}`)
    for (const metric of ['electricPower', 'staticThrust'] as const) {
      const path = `/v1/comparisons?metric=${metric}&setups=${thrifty},${thirsty}&allUpMassKg=120`
      const [compared] = (await field.get<Comparison>(path)).body.setups
      const predicted = body.predictions[metric]
      expect(predicted.value! / compared!.value!).toBeCloseTo(1, 6)
      expect(predicted.interval95![0] / compared!.interval95![0]).toBeCloseTo(1, 6)
      expect(predicted.interval95NextEvening![0]).toBeLessThanOrEqual(predicted.interval95![0])
      expect(predicted).toMatchObject({ withoutInterested: { changes: false } })
      expect(body.evidence[metric]).toMatchObject({ sessions: 6, pilots: 3 })
    }
    expect(body.predictions.fuelFlow.refused!.reasonCode).toBe('electricDrive')
    expect(body.cautions.join(' ')).toMatch('For a static pull the frame is tied down')
    const other = await field.get<Prediction>(`/v1/setups/${burning}/predictions`)
    expect(other.body.predictions.electricPower.refused!.reasonCode).toBe('combustionDrive')
    expect(other.body.predictions.staticThrust.value).toBeGreaterThan(600)
    const { fits } = body
    expect(new Set(Object.values(fits)).size).toBe(4)
    const named = `${query}&fitId=${Object.values(fits).join(',')}`
    const again = await field.get<Prediction>(`/v1/setups/${thrifty}/predictions?${named}`)
    expect(again.body).toEqual(body)
  })
})
