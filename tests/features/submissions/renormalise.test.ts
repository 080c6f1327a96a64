import { afterAll, beforeAll, expect, it } from 'vitest'

import { METHOD_VERSION } from '../../../src/core/version.ts'
import { inTransaction } from '../../../src/db/transaction.ts'
import { renormalise } from '../../../src/features/submissions/renormalise.ts'
import { type Desk, scenarioA, startDesk } from './desk.ts'

let desk: Desk

beforeAll(async () => {
  desk = await startDesk()
})

afterAll(() => desk.close())

const told: unknown[] = []
const log = { info: () => {}, warn: (what: unknown) => told.push(what) }

async function resultsOf(submissionId: string) {
  const { rows } = await desk.db.pool.query(
    `SELECT result.* FROM run_result result
       JOIN run ON run.id = result.run_id
       JOIN submission_revision revision ON revision.id = run.revision_id
      WHERE revision.submission_id = $1 ORDER BY method_version, entry_index, run_index`,
    [submissionId],
  )
  return rows
}

it('adds what today’s method makes of what an earlier one measured, and leaves the earlier', async () => {
  const { token } = await desk.signUp()
  const setupId = await desk.setup()
  const send = async () =>
    (
      await desk.request
        .post('/v1/submissions')
        .set('authorization', `Bearer ${token}`)
        .send(scenarioA(setupId))
        .expect(201)
    ).body
  const sent = await send()
  const refused = await send()
  const today = await resultsOf(sent.id)
  expect(today.length).toBeGreaterThan(0)

  // As a server of an earlier version left it; the second with a climb that no method takes.
  await inTransaction(desk.db, async (client) => {
    await client.query('SET LOCAL session_replication_role = replica') // past what keeps rows as they are
    await client.query(`UPDATE run_result SET method_version = 'earlier', log_value = 0`)
    await client.query(
      `UPDATE submission_revision SET body = jsonb_set(body, '{entries,0,runs,0,durationS}', '0.001')
        WHERE submission_id = $1`,
      [refused.id],
    )
  })

  expect(await renormalise(desk.db.pool, log)).toBe(1)
  const both = await resultsOf(sent.id)
  expect(both.filter(({ method_version: version }) => version === METHOD_VERSION)).toEqual(today)
  expect(both.filter(({ method_version: version }) => version === 'earlier')).toHaveLength(
    today.length,
  )
  const left = await resultsOf(refused.id)
  expect(left.map(({ method_version: version }) => version)).toEqual(today.map(() => 'earlier'))
  expect(told).toHaveLength(1)

  expect(await renormalise(desk.db.pool, log)).toBe(0)
  expect(await resultsOf(sent.id)).toEqual(both)
})
