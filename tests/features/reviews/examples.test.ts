import { afterAll, beforeAll, describe, it } from 'vitest'

import { startTestApp, type TestApp } from '../../support/app.ts'
import { exampleKeeper } from '../../support/example.ts'
import { insertSetup } from '../submissions/desk.ts'

let service: TestApp

beforeAll(async () => {
  service = await startTestApp()
})
afterAll(async () => service?.close())

describe('the examples of the API', () => {
  it('are what comes of a report, from its filing to the audit trail', async () => {
    const show = exampleKeeper(service)
    const pilot = await service.signUp()
    const { token } = await service.signUp('moderator')
    const setupId = await insertSetup(service.db)
    const { id } = await show({
      operationId: 'fileReport',
      method: 'post',
      path: '/v1/reports',
      body: { setupId, kind: 'unsafe', text: 'The lower hoop is cracked beside the weld.' },
      status: 201,
      token: pilot.token,
    })
    await show({ operationId: 'listReviews', method: 'get', path: '/v1/reviews?limit=5', token })
    await show({
      operationId: 'decideReview',
      method: 'post',
      path: `/v1/reviews/${id}/decisions`,
      body: { decision: 'doNotFly', reason: 'Two owners sent photographs of the same crack.' },
      status: 201,
      token,
    })
    await show({ operationId: 'getReview', method: 'get', path: `/v1/reviews/${id}`, token })
    const path = `/v1/audit-events?subjectId=${setupId}&limit=5`
    await show({ operationId: 'listAuditEvents', method: 'get', path, token })
  })
})
