import { execFile } from 'node:child_process'
import { mkdir, rename, stat } from 'node:fs/promises'
import { join } from 'node:path'
import { setTimeout as sleep } from 'node:timers/promises'
import { promisify } from 'node:util'

import { inject } from 'vitest'

import type {} from '../../support/demo-world-setup.ts'
import { cleanUp, makePlace, startProcess } from '../../support/service-process.ts'

const run = promisify(execFile)

/** What the fits of the demo are of; beside each stand others, which are made after it. */
const METRICS = ['climbRate', 'fuelFlow', 'staticThrust', 'soundLevel']

/** Puts a data folder with the demo there: made once in a run, by the service itself, then copied. */
export async function copyDemoWorld(dataDir: string): Promise<void> {
  const folder = inject('demoWorld')
  const whole = join(folder, 'data')
  const isFirst = await mkdir(join(folder, 'begun')).then(
    () => true,
    () => false,
  )
  if (isFirst) await makeDemoWorld(whole)
  while (!(await isThere(whole))) await sleep(100)
  // Keeps the owner of the files: the database's account, where this one is root.
  await run('cp', ['-a', whole, dataDir])
}

async function makeDemoWorld(whole: string): Promise<void> {
  const place = await makePlace()
  const dataDir = join(place, 'data')
  const env = { DATA_DIR: dataDir, DEMO_DATA: 'on', RATE_LIMIT: 'off', LOG_LEVEL: 'error' }
  const service = startProcess(env)
  try {
    const url = await service.ready()
    while (!(await areMade(url))) await sleep(200)
    service.child.kill('SIGTERM')
    await service.ended()
    await run('cp', ['-a', dataDir, `${whole}.copying`])
    await rename(`${whole}.copying`, whole)
  } finally {
    await cleanUp(place, [service])
  }
}

async function areMade(url: string): Promise<boolean> {
  const states = await Promise.all(
    METRICS.map(async (metric) => {
      const answer = await fetch(`${url}/v1/rankings?metric=${metric}`)
      return ((await answer.json()) as { otherFits: string }).otherFits
    }),
  )
  return states.every((state) => state === 'made')
}

async function isThere(path: string): Promise<boolean> {
  return stat(path).then(
    () => true,
    () => false,
  )
}
