import { chmod, mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'

import type { TestProject } from 'vitest/node'

declare module 'vitest' {
  export interface ProvidedContext {
    /** A folder of this run, for a data folder with the demo that each file copies. */
    demoWorld: string
  }
}

/** Makes the place; the first file that needs the demo fills it. */
export default async function setup(project: TestProject): Promise<() => Promise<void>> {
  const folder = await mkdtemp(join(tmpdir(), 'fairclimb-demo-'))
  await chmod(folder, 0o711) // as root, the database has another account
  project.provide('demoWorld', folder)
  return () => rm(folder, { recursive: true, force: true })
}
