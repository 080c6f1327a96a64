import { dirname } from 'node:path'

import { StartFault } from '../start-fault.ts'
import { type RunAs, run } from './run.ts'

/** PostgreSQL refuses to run as root; root lends it this account, as Linux packages do. */
const ACCOUNT = 'postgres'

/**
 * Whose rights the database server gets: those of this process, or of the account `postgres`
 * (made when missing) where this process is root.
 *
 * @throws {StartFault} where that account cannot be made
 */
export async function serverUser(): Promise<RunAs> {
  if (process.getuid?.() !== 0) return {}
  const known = await lookUp()
  if (known !== null) return known
  const made = await run('useradd', ['--system', '--user-group', '--no-create-home', ACCOUNT])
  const user = await lookUp()
  if (user === null) {
    throw new StartFault(
      `PostgreSQL does not run as root, and the account "${ACCOUNT}" for it could not be made (${made.output}); start the service as another user or set DATABASE_URL.`,
    )
  }
  return user
}

/**
 * Makes sure that the server's account can get to a file or folder. Only root needs asking:
 * otherwise it is the account of this process.
 *
 * @throws {StartFault} naming the folder that is closed to it
 */
export async function requireReach(user: RunAs, path: string, what: string): Promise<void> {
  if (user.uid === undefined || (await canEnter(user, path))) return
  let closed = path
  for (let at = path; at !== dirname(at); at = dirname(at)) {
    if (!(await canEnter(user, at))) closed = at
  }
  throw new StartFault(
    `This process is root, so PostgreSQL runs as the user "${ACCOUNT}", which cannot reach ${what} because ${closed} is closed to it: use another place, open that folder (chmod o+x), start as another user, or set DATABASE_URL.`,
  )
}

async function canEnter(user: RunAs, path: string): Promise<boolean> {
  return (await run('test', ['-x', path], user)).ok
}

async function lookUp(): Promise<{ uid: number; gid: number } | null> {
  const uid = await run('id', ['-u', ACCOUNT])
  const gid = await run('id', ['-g', ACCOUNT])
  return uid.ok && gid.ok ? { uid: Number(uid.output), gid: Number(gid.output) } : null
}
