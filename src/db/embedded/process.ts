import { realpath } from 'node:fs/promises'

import { errorCode } from '../start-fault.ts'
import { run } from './run.ts'

/** Whether a process with this id exists. */
export function isAlive(pid: number): boolean {
  try {
    process.kill(pid, 0)
    return true
  } catch (error) {
    return errorCode(error) === 'EPERM'
  }
}

/**
 * Whether a process is the database server of a cluster, and not a stranger that was given the
 * same id later, as happens after a reboot and in containers.
 */
export async function isServerOf(cluster: string, pid: number): Promise<boolean> {
  if (!isAlive(pid)) return false
  if (process.platform === 'win32') return true
  try {
    // The server works in its cluster's folder.
    return (await realpath(`/proc/${pid}/cwd`)) === (await realpath(cluster))
  } catch (error) {
    // Linux has the folder of every process but those that ended and await their parent's notice.
    if (process.platform === 'linux' && errorCode(error) === 'ENOENT') return false
    const command = await run('ps', ['-o', 'command=', '-p', String(pid)])
    return command.ok && command.output.includes('postgres')
  }
}
