import { createHash } from 'node:crypto'
import { setTimeout as sleep } from 'node:timers/promises'

import { afterEach, beforeEach, describe, expect, it } from 'vitest'

import { CLIMB, csvOf, EVENING } from '../features/imports/notebook-file.ts'
import { insertSetup } from '../features/submissions/desk.ts'
import { createTestDatabase, type TestDatabase } from '../support/database.ts'
import { type ServiceProcess, startProcess } from '../support/service-process.ts'

const ADMIN = { email: 'admin@example.org', password: 'mist in the valley until nine' }

/** What of the answers is looked at. */
interface Answer {
  readonly id: string
  readonly accessToken: string
  readonly items: readonly { readonly id: string; readonly digest: string }[]
  readonly step: string
  readonly release: string | null
  readonly finishedAt: string | null
}

describe('what the built service makes while nobody waits', () => {
  let test: TestDatabase
  let processes: ServiceProcess[]

  beforeEach(async () => {
    test = await createTestDatabase()
    processes = []
  })

  afterEach(async () => {
    for (const { child, ended } of processes) {
      child.kill('SIGKILL')
      await ended()
    }
    await test.drop()
  })

  const start = (env: Readonly<Record<string, string>> = {}) => {
    const service = startProcess({
      DATABASE_URL: test.url,
      ADMIN_EMAIL: ADMIN.email,
      ADMIN_PASSWORD: ADMIN.password,
      ...env,
    })
    processes.push(service)
    return service
  }

  const get = async (url: string, headers: Record<string, string> = {}) =>
    (await (await fetch(url, { headers })).json()) as Answer

  const count = async (sql: string) => {
    const { rows } = await test.db.pool.query<{ count: number }>(`SELECT count(*)::int ${sql}`)
    return rows[0]!.count
  }

  /** What says that the administrator asks. */
  const signIn = async (url: string) => {
    const tokens = await fetch(`${url}/v1/tokens`, {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify({ grantType: 'password', ...ADMIN }),
    })
    const { accessToken } = (await tokens.json()) as Answer
    return { authorization: `Bearer ${accessToken}` }
  }

  /** Asks for a release; resolves with the path to follow it at. */
  const ask = async (url: string) => {
    const headers = await signIn(url)
    const asked = await fetch(`${url}/v1/datasets`, { method: 'POST', headers })
    expect(asked.status).toBe(202)
    return asked.headers.get('location')!
  }

  const untilFinished = async (address: string, headers: Record<string, string> = {}) => {
    for (;;) {
      const request = await get(address, headers)
      if (request.finishedAt !== null) return request
      await sleep(50)
    }
  }

  /** Every file of the release as its checksums say, and nothing stored that no release names. */
  const expectWhole = async (url: string, { id, digest }: { id: string; digest: string }) => {
    const file = async (name: string) => {
      const answer = await fetch(`${url}/v1/datasets/${id}/${name}`)
      return Buffer.from(await answer.arrayBuffer())
    }
    const hash = (bytes: Buffer) => createHash('sha256').update(bytes).digest('hex')
    const sums = await file('SHA256SUMS')
    expect(hash(sums)).toBe(digest)
    const lines = sums.toString().trim().split('\n')
    expect(lines.length).toBeGreaterThan(20)
    for (const line of lines) expect(hash(await file(line.slice(66)))).toBe(line.slice(0, 64))
    const orphans = await count(`FROM dataset_chunk c WHERE NOT EXISTS (
      SELECT FROM dataset_file f WHERE c.sha256 = ANY (f.chunk_hashes))`)
    expect(orphans).toBe(0)
  }

  /** Holds a table, kills the process that `begin` gives when its release waits for it, and lets go. */
  const killAt = async (table: string, begin: () => Promise<ServiceProcess>) => {
    const holder = await test.db.pool.connect()
    await holder.query(`BEGIN; LOCK TABLE ${table} IN EXCLUSIVE MODE`)
    const { child, ended } = await begin()
    const waiting = `FROM pg_locks WHERE NOT granted AND relation = '${table}'::regclass
      AND database = (SELECT oid FROM pg_database WHERE datname = current_database())`
    while ((await count(waiting)) === 0) await sleep(20)
    child.kill('SIGKILL')
    await ended()
    await holder.query('ROLLBACK')
    holder.release()
  }

  it('a release leaves nothing behind where the process is killed, and the next one makes it', async () => {
    const first = start({ DEMO_DATA: 'on' })
    const url = await first.ready()
    let path = ''
    // Before the first bytes are stored.
    await killAt('dataset_chunk', async () => {
      path = await ask(url)
      return first
    })
    expect(await count('FROM dataset_release')).toBe(0)
    expect(await count(`FROM dataset_request WHERE state = 'running'`)).toBe(1)

    // When everything is stored but the names of the files.
    await killAt('dataset_file', async () => start())
    expect(await count('FROM dataset_release')).toBe(0)
    expect(await count('FROM dataset_chunk')).toBe(0)

    const next = await start().ready()
    const request = await untilFinished(`${next}${path}`)
    expect(request).toMatchObject({ state: 'published', progress: 1 })
    const { items } = await get(`${next}/v1/datasets`)
    expect(items.map(({ id }) => id)).toEqual([request.release])
    await expectWhole(next, items[0]!)
  })

  it('an import whose process is killed leaves nothing, says so, and may be sent again', async () => {
    const killed = start()
    const url = await killed.ready()
    const headers = await signIn(url)
    const { id: account } = await get(`${url}/v1/me`, headers)
    const setupId = await insertSetup(test.db)
    const body = csvOf([{ setup_id: setupId, ...EVENING, ...CLIMB }])
    const send = (to: string, more: Record<string, string>) =>
      fetch(`${to}/v1/imports`, {
        method: 'POST',
        headers: { ...headers, 'content-type': 'text/csv', ...more },
        body,
      })
    // Holds the import at its turn for as long as the process lives.
    const holder = await test.db.pool.connect()
    await holder.query('SELECT pg_advisory_lock(hashtextextended($1, 7310005))', [account])
    const asked = await send(url, { prefer: 'respond-async' })
    expect(asked.status).toBe(202)
    const path = asked.headers.get('location')
    while ((await get(`${url}${path}`, headers)).step !== 'reading') await sleep(20)
    killed.child.kill('SIGKILL')
    await killed.ended()
    await holder.query('SELECT pg_advisory_unlock_all()')
    holder.release()

    const next = await start().ready()
    expect(await untilFinished(`${next}${path}`, headers)).toMatchObject({ state: 'failed' })
    expect(await count('FROM data_import')).toBe(0)
    expect((await send(next, {})).status).toBe(201)
  })

  it('releases are made on schedule, without anybody asking', async () => {
    const url = await start({ DATASET_EVERY_DAYS: '30' }).ready()
    while ((await get(`${url}/v1/datasets`)).items.length === 0) await sleep(50)
    expect(await count('FROM dataset_request WHERE requested_by_id IS NULL')).toBe(1)
  })
})
