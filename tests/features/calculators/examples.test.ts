import { afterAll, beforeAll, describe, it } from 'vitest'

import { startTestApp, type TestApp } from '../../support/app.ts'
import { exampleKeeper } from '../../support/example.ts'

let service: TestApp

beforeAll(async () => {
  service = await startTestApp()
})
afterAll(async () => service?.close())

describe('the examples of the API', () => {
  it('are what the calculators of noise and clearance answer', async () => {
    const show = exampleKeeper(service)
    await show({
      operationId: 'getNoiseExposure',
      method: 'get',
      path: '/v1/noise-exposure?levelDbA=98&durationMin=20',
    })
    await show({
      operationId: 'computeTipClearance',
      method: 'post',
      path: '/v1/safety/tip-clearance',
      body: {
        thrustN: 700,
        thrustLineAboveMountsMm: 100,
        mounts: [80, 80, -80, -80].map((heightMm) => ({ stiffnessNPerMm: 100, heightMm })),
        propellerDiameterCm: 130,
        bladeFlexMm: 5,
        staticClearanceMm: 52,
      },
    })
  })
})
