import { randomBytes } from 'node:crypto'
import { chmod, mkdtemp, readdir, readFile, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'

import type { TestProject } from 'vitest/node'

import { openDatabase } from '../../src/db/client.ts'
import { isAlive, isServerOf } from '../../src/db/embedded/process.ts'
import { startEmbedded } from '../../src/db/embedded.ts'
import { migrate } from '../../src/db/migrate.ts'
import { queryOnce, withDatabase } from './admin.ts'

declare module 'vitest' {
  export interface ProvidedContext {
    /** The server for tests, and how the databases of this run are named. */
    testServer: { readonly adminUrl: string; readonly prefix: string }
  }
}

const FOLDER = /^fairclimb-test-(\d+)-/

/**
 * One database server for the whole run, with a template that has the migrations: an embedded
 * PostgreSQL in a temporary folder, or the server that TEST_DATABASE_URL names.
 */
export default async function setup(project: TestProject): Promise<() => Promise<void>> {
  const prefix = `fairclimb_test_${randomBytes(4).toString('hex')}`
  const server = await startServer()
  const tearDown = async () => {
    await dropDatabases(server.adminUrl, prefix).finally(server.stop)
  }
  try {
    await createTemplate(server.adminUrl, `${prefix}_template`)
  } catch (error) {
    await tearDown()
    throw error
  }
  project.provide('testServer', { adminUrl: server.adminUrl, prefix })
  return tearDown
}

async function startServer(): Promise<{ adminUrl: string; stop(): Promise<void> }> {
  const external = process.env.TEST_DATABASE_URL
  if (external !== undefined && external !== '') {
    return { adminUrl: external, stop: async () => {} }
  }
  await removeAbandoned()
  const folder = await mkdtemp(join(tmpdir(), `fairclimb-test-${process.pid}-`))
  await chmod(folder, 0o711) // as root, the server has another account
  const remove = () => rm(folder, { recursive: true, force: true })
  try {
    const { adminUrl, stop } = await startEmbedded({ dataDir: folder, durable: false })
    return { adminUrl, stop: () => stop().finally(remove) }
  } catch (error) {
    await remove()
    throw error
  }
}

/** Servers and folders of test runs that were killed. */
async function removeAbandoned(): Promise<void> {
  for (const name of await readdir(tmpdir())) {
    const runner = FOLDER.exec(name)?.[1]
    if (runner === undefined || isAlive(Number(runner))) continue
    const folder = join(tmpdir(), name)
    const cluster = join(folder, 'postgres')
    const mark = await readFile(join(cluster, 'postmaster.pid'), 'utf8').catch(() => '')
    const server = Number(mark.split('\n')[0])
    if (server > 0 && (await isServerOf(cluster, server))) process.kill(server, 'SIGQUIT')
    await rm(folder, { recursive: true, force: true })
  }
}

async function createTemplate(adminUrl: string, name: string): Promise<void> {
  await queryOnce(adminUrl, `CREATE DATABASE ${name} TEMPLATE template0`)
  const db = openDatabase(withDatabase(adminUrl, name))
  try {
    await migrate(db)
  } finally {
    await db.close()
  }
}

async function dropDatabases(adminUrl: string, prefix: string): Promise<void> {
  const rows = await queryOnce<{ datname: string }>(
    adminUrl,
    'SELECT datname FROM pg_database WHERE starts_with(datname, $1)',
    [prefix],
  )
  for (const { datname } of rows) {
    await queryOnce(adminUrl, `DROP DATABASE IF EXISTS ${datname} WITH (FORCE)`)
  }
}
