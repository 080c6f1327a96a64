import { afterAll, beforeAll, describe, expect, it } from 'vitest'

import { type DemoRelease, releaseDemo } from './demo-release.ts'

let demo: DemoRelease

beforeAll(async () => {
  demo = await releaseDemo()
})
afterAll(() => demo.close())

describe('a release', () => {
  it('is listed', async () => {
    const { body } = await demo.request.get('/v1/datasets').expect(200)
    expect(body.items[0].id).toBe(demo.releaseId)
  })
})
