import { afterAll, beforeAll, expect, it } from 'vitest'

import { inTransaction } from '../../../src/db/transaction.ts'
import { copyLines } from '../../../src/features/datasets/release/tables-to-files.ts'
import { createTestDatabase, type TestDatabase } from '../../support/database.ts'

/** More than fits into the buffers between the database and here: some 20 MB. */
const ROWS = 200_000
const LINE_END = '\n'.charCodeAt(0)
const LINES = `SELECT repeat('a', 98) || E'\\r\\n' FROM generate_series(1, ${ROWS})`

let database: TestDatabase

beforeAll(async () => {
  database = await createTestDatabase()
})

afterAll(() => database.drop())

it('gives all lines that a select gives, in pieces of whole ones', async () => {
  let length = 0
  await inTransaction(database.db, async (client) => {
    for await (const piece of copyLines(client, LINES)) {
      length += piece.length
      if (piece.at(-1) !== LINE_END) throw new Error('a piece ends within a line')
    }
  })
  expect(length).toBe(100 * ROWS)
})

// Found by a release whose row had a cell too many: it neither failed nor went on, and its lock stayed.
it('leaves a connection that answers where its reader fails in the middle', async () => {
  const failed = inTransaction(database.db, async (client) => {
    for await (const piece of copyLines(client, LINES)) throw new Error(`after ${piece.length}`)
  })
  await expect(failed).rejects.toThrow(/^after \d+$/)
  await inTransaction(database.db, async (client) => {
    for await (const _ of copyLines(client, LINES)) break
    const { rows } = await client.query('SELECT 1 AS one')
    expect(rows).toEqual([{ one: 1 }])
  })
})

it('lives on where the connection ends while it reads', async () => {
  const client = await database.db.pool.connect()
  for await (const _ of copyLines(client, LINES)) break
  client.release(true)
  await expect(database.db.pool.query('SELECT 1 AS one')).resolves.toMatchObject({
    rows: [{ one: 1 }],
  })
})
