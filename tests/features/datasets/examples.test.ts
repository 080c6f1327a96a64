import { afterAll, beforeAll, describe, it } from 'vitest'

import { exampleKeeper } from '../../support/example.ts'
import { CLIMB, type Desk, scenarioA, startDesk } from '../submissions/desk.ts'

let desk: Desk

beforeAll(async () => {
  desk = await startDesk()
})
afterAll(() => desk.close())

interface Shortened {
  readonly resources: readonly { readonly schema: { readonly fields: readonly unknown[] } }[]
}

/** The first table of the package with the first of its columns. */
const firstColumns = ({ resources, ...head }: Shortened) => {
  const [{ schema, ...resource }] = resources as [Shortened['resources'][number]]
  const columns = { ...schema, fields: schema.fields.slice(0, 5) }
  return { ...head, resources: [{ ...resource, schema: columns }] }
}

describe('the examples of the API', () => {
  it('are what comes of asking for a release', async () => {
    const show = exampleKeeper(desk)
    const setups = [await desk.setup(), await desk.setup()]
    for (let pilot = 0; pilot < 6; pilot++) {
      const { token } = await desk.signUp()
      const [entry, other] = setups.map((setupId, index) => {
        const durationS = 50 + 4 * index + pilot
        return scenarioA(setupId, [{ ...CLIMB, durationS }]).entries[0]!
      })
      await desk.request
        .post('/v1/submissions')
        .auth(token, { type: 'bearer' })
        .send({ ...scenarioA(setups[0]!), entries: [entry, other] })
        .expect(201)
    }
    const { token } = await desk.signUp('researcher')
    const asked = await show({
      operationId: 'createDataset',
      method: 'post',
      path: '/v1/datasets',
      status: 202,
      token,
    })
    await desk.app.releases.workOff()
    const path = `/v1/dataset-requests/${asked.id}`
    const { url } = await show({ operationId: 'readDatasetRequest', method: 'get', path })
    await show({ operationId: 'listDatasets', method: 'get', path: '/v1/datasets?limit=5' })
    await show({ operationId: 'readDataset', method: 'get', path: url, shorten: firstColumns })
  })
})
