import { afterAll, beforeAll, expect, it } from 'vitest'

import { inTransaction } from '../../../src/db/transaction.ts'
import { RowBlocks } from '../../../src/features/datasets/files/row-blocks.ts'
import { copyBlocks } from '../../../src/features/datasets/release/tables-to-files.ts'
import { createTestDatabase, type TestDatabase } from '../../support/database.ts'

/** More than fits into the buffers between the database and here: some 20 MB. */
const ROWS = 200_000
const BLOCKS = `SELECT 'h' || n, repeat('a', n % 200) || E'\\r\\n' FROM generate_series(1, ${ROWS}) AS n`

let database: TestDatabase

beforeAll(async () => {
  database = await createTestDatabase()
})

afterAll(() => database.drop())

it('gives all blocks that a select gives, in pieces of whole ones', async () => {
  let number = 0
  await inTransaction(database.db, async (client) => {
    for await (const piece of copyBlocks(client, BLOCKS)) {
      const blocks = new RowBlocks(piece)
      while (blocks.next()) {
        number++
        const head = piece.toString('latin1', blocks.headStart, blocks.headEnd)
        const rowBytes = blocks.rowsEnd - blocks.rowsStart
        if (head !== `h${number}` || rowBytes !== (number % 200) + 2) throw new Error(`${number}`)
      }
      if (blocks.rowsEnd !== piece.length) throw new Error('a piece ends within a block')
    }
  })
  expect(number).toBe(ROWS)
})

// Found by a release whose row had a cell too many: it neither failed nor went on, and its lock stayed.
it('leaves a connection that answers where its reader fails in the middle', async () => {
  const failed = inTransaction(database.db, async (client) => {
    for await (const piece of copyBlocks(client, BLOCKS)) throw new Error(`after ${piece.length}`)
  })
  await expect(failed).rejects.toThrow(/^after \d+$/)
  await inTransaction(database.db, async (client) => {
    for await (const _ of copyBlocks(client, BLOCKS)) break
    const { rows } = await client.query('SELECT 1 AS one')
    expect(rows).toEqual([{ one: 1 }])
  })
})

it('lives on where the connection ends while it reads', async () => {
  const client = await database.db.pool.connect()
  for await (const _ of copyBlocks(client, BLOCKS)) break
  client.release(true)
  await expect(database.db.pool.query('SELECT 1 AS one')).resolves.toMatchObject({
    rows: [{ one: 1 }],
  })
})
