import { afterAll, beforeAll, expect, it } from 'vitest'

import { createTestDatabase, type TestDatabase } from '../support/database.ts'

let test: TestDatabase

beforeAll(async () => {
  test = await createTestDatabase()
})

afterAll(() => test.drop())

it('a connection that is cut while somebody holds it fails his next query and nothing else', async () => {
  const { pool } = test.db
  const held = await pool.connect()
  const ended = new Promise<void>((resolve) => held.once('end', resolve))
  const { rows } = await held.query('SELECT pg_backend_pid() AS pid')
  await pool.query('SELECT pg_terminate_backend($1)', [rows[0].pid])
  await ended // without a listener the error before it would end the process

  await expect(held.query('SELECT 1')).rejects.toThrow()
  held.release(true)
  expect((await pool.query('SELECT 1 AS one')).rows).toEqual([{ one: 1 }])
})
