import { mkdtemp, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'

import { loadDemo } from '../../../src/demo/load.ts'
import { startTestApp, type TestApp } from '../../support/app.ts'

/** The app with the demo's evenings and a release of them, its files also in a folder. */
export interface DemoRelease extends TestApp {
  readonly releaseId: string
  /** Where the files were written as they were served. */
  readonly folder: string
  readonly fileNames: readonly string[]
}

export async function releaseDemo(): Promise<DemoRelease> {
  const test = await startTestApp()
  await loadDemo(test.db)
  await test.app.fits.refresh()
  const releaseId = await makeRelease(test)
  const folder = await mkdtemp(join(tmpdir(), 'fairclimb-release-'))
  const sums = await readFile(test, releaseId, 'SHA256SUMS')
  const fileNames = sums
    .toString('utf8')
    .trim()
    .split('\n')
    .map((line) => line.slice(66))
  await writeFile(join(folder, 'SHA256SUMS'), sums)
  for (const name of fileNames) {
    await writeFile(join(folder, name), await readFile(test, releaseId, name))
  }
  return {
    ...test,
    releaseId,
    folder,
    fileNames,
    async close() {
      await rm(folder, { recursive: true, force: true })
      await test.close()
    },
  }
}

/** Asks for a release as a researcher and waits for it; gives its id. */
export async function makeRelease(test: TestApp): Promise<string> {
  const { token } = await test.signUp('researcher')
  const asked = await test.request
    .post('/v1/datasets')
    .set('authorization', `Bearer ${token}`)
    .expect(202)
  await test.app.releases.workOff()
  const done = await test.request.get(asked.headers.location as string).expect(200)
  if (done.body.release === null) throw new Error(JSON.stringify(done.body))
  return done.body.release
}

/** The bytes of a file as they are served. */
export async function readFile(test: TestApp, release: string, name: string): Promise<Buffer> {
  const answer = await test.request
    .get(`/v1/datasets/${release}/${name}`)
    .set('accept-encoding', 'identity')
    .buffer(true)
    .parse((response, done) => {
      const parts: Buffer[] = []
      response.on('data', (part: Buffer) => parts.push(part))
      response.on('end', () => done(null, Buffer.concat(parts)))
    })
    .expect(200)
  return answer.body
}
