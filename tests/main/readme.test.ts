import { join } from 'node:path'

import { afterAll, describe, expect, it } from 'vitest'

import { canWalk, rewriteReadme, walkReadme } from '../support/readme-walk.ts'
import {
  cleanUp,
  makePlace,
  type ServiceProcess,
  startProcess,
} from '../support/service-process.ts'

const processes: ServiceProcess[] = []
const place = await makePlace()
const hasTools = await canWalk()

afterAll(() => cleanUp(place, processes))

describe('the README', () => {
  // With UPDATE_README=1 (`npm run readme`) the outputs are written instead of compared.
  it.runIf(hasTools)('shows what its walk prints, run from start to end', async () => {
    const service = startProcess({ DATA_DIR: join(place, 'data'), DEMO_DATA: 'on' })
    processes.push(service)
    const steps = await walkReadme(await service.ready())
    expect(steps.length).toBeGreaterThan(8)
    if (process.env.UPDATE_README === '1') await rewriteReadme(steps)
    else for (const { printed, shown } of steps) expect(printed).toBe(shown)
  })
})
