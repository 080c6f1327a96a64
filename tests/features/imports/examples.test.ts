import { afterAll, beforeAll, describe, expect, it } from 'vitest'

import { exampleKeeper } from '../../support/example.ts'
import { type Desk, startDesk } from '../submissions/desk.ts'
import { CLIMB, csvOf, EVENING } from './notebook-file.ts'

let desk: Desk

beforeAll(async () => {
  desk = await startDesk()
})
afterAll(() => desk.close())

describe('the examples of the API', () => {
  it('are what comes of a notebook, waited for and followed', async () => {
    const show = exampleKeeper(desk)
    const { token } = await desk.signUp()
    const row = { setup_id: await desk.setup(), ...EVENING, ...CLIMB }
    const csv = csvOf([row, { ...row, pilot: 'Rowan', session: 'Evening 2', duration_s: 57 }])
    const path = '/v1/imports'
    const { id } = await show({
      ...{ operationId: 'importData', method: 'post', path, status: 201, token, body: csv },
    })
    await show({ operationId: 'readImport', method: 'get', path: `${path}/${id}`, token })
    await show({ operationId: 'listImports', method: 'get', path: `${path}?limit=5`, token })
    const faulty = csv.replace(',100,', ',about 100,')
    const headers = { prefer: 'respond-async' }
    const asked = await desk.request
      .post(path)
      .set(headers)
      .auth(token, { type: 'bearer' })
      .type('text/csv')
      .send(faulty)
      .expect(202)
    const { location } = asked.headers as { location: string }
    await expect
      .poll(
        async () => (await desk.request.get(location).auth(token, { type: 'bearer' })).body.state,
      )
      .toBe('refused')
    await show({ operationId: 'readImportRequest', method: 'get', path: location, token })
    await show({
      operationId: 'listNotebookColumns',
      method: 'get',
      path: `${path}/columns`,
      shorten: ({ items }: { items: unknown[] }) => ({ items: items.slice(0, 12) }),
    })
  })
})
