import { type ChildProcess, spawn } from 'node:child_process'
import { once } from 'node:events'
import { chmod, mkdtemp, readFile, rm } from 'node:fs/promises'
import { createServer } from 'node:net'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { setTimeout as sleep } from 'node:timers/promises'
import { fileURLToPath } from 'node:url'

import { isAlive } from '../../src/db/embedded/process.ts'

const MAIN = fileURLToPath(new URL('../../dist/main.js', import.meta.url))

/** The built service as a process, as a supervisor would run it. */
export interface ServiceProcess {
  readonly child: ChildProcess
  /** Everything it wrote so far. */
  readonly output: { stdout: string; stderr: string }
  /** Resolves with where it listens; rejects when it ends before. */
  ready(): Promise<string>
  /** Resolves with the exit code, or the signal that ended it. */
  ended(): Promise<number | string | null>
}

/** Starts dist/main.js with only these variables set. Quick and quiet unless told otherwise. */
export function startProcess(env: Readonly<Record<string, string>>): ServiceProcess {
  const child = spawn(process.execPath, [MAIN], {
    env: { PATH: process.env.PATH, PORT: '0', DEMO_DATA: 'off', ...env },
    stdio: ['ignore', 'pipe', 'pipe'],
  })
  const output = { stdout: '', stderr: '' }
  child.stdout?.setEncoding('utf8').on('data', (text: string) => {
    output.stdout += text
  })
  child.stderr?.setEncoding('utf8').on('data', (text: string) => {
    output.stderr += text
  })
  const closed = once(child, 'close')
  return {
    child,
    output,
    async ready() {
      while (child.exitCode === null && child.signalCode === null) {
        const url = /^Fairclimb listens on (\S+)$/m.exec(output.stdout)?.[1]
        if (url !== undefined) return url
        await sleep(20)
      }
      throw new Error(`the service ended before it listened: ${output.stderr}${output.stdout}`)
    },
    async ended() {
      await closed
      return child.exitCode ?? child.signalCode
    },
  }
}

/** A place for a data folder that the database's own account can reach. */
export async function makePlace(): Promise<string> {
  const folder = await mkdtemp(join(tmpdir(), 'fairclimb-process-'))
  await chmod(folder, 0o711)
  return folder
}

/** The process id of the database server in a data folder; null where none runs. */
export async function databasePid(dataDir: string): Promise<number | null> {
  const file = join(dataDir, 'postgres', 'postmaster.pid')
  const pid = Number((await readFile(file, 'utf8').catch(() => '')).split('\n')[0])
  return pid > 0 && isAlive(pid) ? pid : null
}

/** Ends what a failed test may have left running, and removes its place. */
export async function cleanUp(place: string, processes: readonly ServiceProcess[]): Promise<void> {
  for (const { child, ended } of processes) {
    child.kill('SIGKILL')
    await ended()
  }
  const pid = await databasePid(join(place, 'data'))
  if (pid !== null && pid !== process.pid) {
    process.kill(pid, 'SIGQUIT')
    while (isAlive(pid)) await sleep(20)
  }
  await rm(place, { recursive: true, force: true })
}

/** A port that another program listens on. */
export async function occupyPort(): Promise<{ port: number; release(): Promise<void> }> {
  const server = createServer()
  server.listen(0, '127.0.0.1')
  await once(server, 'listening')
  const address = server.address()
  if (address === null || typeof address === 'string') throw new Error('no port')
  return {
    port: address.port,
    async release() {
      server.close()
      await once(server, 'close')
    },
  }
}
