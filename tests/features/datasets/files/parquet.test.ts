import { mkdtemp, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { Readable } from 'node:stream'

import { DuckDBInstance } from '@duckdb/node-api'
import fc from 'fast-check'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'

import type { Row } from '../../../../src/features/datasets/files/csv.ts'
import { ROWS_PER_GROUP } from '../../../../src/features/datasets/files/parquet/column-chunk.ts'
import { RowGroupThread } from '../../../../src/features/datasets/files/parquet/thread.ts'
import { parquetFromBlocks } from '../../../../src/features/datasets/files/parquet.ts'
import { blocksOfRows } from '../../../../src/features/datasets/release/tables-to-files.ts'
import type { Column, ColumnType } from '../../../../src/features/datasets/tables/column.ts'
import { headedBlock } from './headed-block.ts'

const column = (name: string, type: ColumnType, nullable = true): Column => ({
  ...{ name, type, nullable, title: name, description: '', unit: null },
  ...{ minimum: null, maximum: null, values: null, pattern: null },
})

const COLUMNS = [
  column('key', 'string', false),
  column('word', 'string'),
  column('measure', 'number'),
  column('coarse', 'number'),
  column('count', 'integer'),
  column('flag', 'boolean'),
  column('empty', 'number'),
]

const thread = new RowGroupThread()

let folder: string
let files = 0 // DuckDB keeps what it read of a path
let duck: Awaited<ReturnType<DuckDBInstance['connect']>>

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'fairclimb-parquet-'))
  duck = await (await DuckDBInstance.create()).connect()
})
afterAll(async () => {
  await thread.close()
  await rm(folder, { recursive: true, force: true })
})

async function written(rows: readonly Row[], rowsAtATime: number): Promise<string> {
  return writtenBlocks(blocksOfRows(COLUMNS, rows, rowsAtATime))
}

async function writtenBlocks(blocks: Iterable<Uint8Array>): Promise<string> {
  const pieces = Readable.from(blocks)
  const parts: Uint8Array[] = []
  for await (const part of parquetFromBlocks(COLUMNS, pieces, (part) => thread.make(part))) {
    parts.push(part)
  }
  const path = join(folder, `${files++}.parquet`)
  await writeFile(path, Buffer.concat(parts))
  return path
}

async function read(path: string, sql = 'SELECT *'): Promise<unknown[][]> {
  return (await duck.runAndReadAll(`${sql} FROM '${path}'`)).getRows() as unknown[][]
}

const cellsOf = (rows: readonly Row[]) =>
  rows.map((row) => COLUMNS.map(({ name }) => row[name] ?? null))

/** CSV knows one zero, as PostgreSQL writes it. */
const oneZero = (value: number) => value + 0

const anyRow = fc.record({
  key: fc.stringMatching(/^[a-z0-9]{1,12}$/),
  word: fc.option(fc.constantFrom('calm', 'light', 'a "quoted", word', 'größer', '\u{10437}')),
  measure: fc.option(fc.double({ noNaN: true, noDefaultInfinity: true }).map(oneZero)),
  coarse: fc.option(fc.constantFrom(0, -0.5, 12, 3400)),
  count: fc.option(fc.integer({ min: -(2 ** 31), max: 2 ** 31 - 1 })),
  flag: fc.option(fc.boolean()),
})

describe('a Parquet file', () => {
  it('gives DuckDB every value back, however many rows come at a time', async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.array(anyRow, { minLength: 1, maxLength: 40 }),
        fc.integer({ min: 1, max: 9 }),
        async (rows, rowsAtATime) => {
          expect(await read(await written(rows, rowsAtATime))).toEqual(cellsOf(rows))
        },
      ),
      { numRuns: 40 },
    )
  })

  it('of no rows is read as a table of no rows', async () => {
    const path = await written([], 100)
    expect(await read(path)).toEqual([])
    expect(await read(path, 'SELECT count(*)')).toEqual([[0n]])
  })

  it('gives back more rows than a group holds, with values that repeat and values that do not', async () => {
    const rows = Array.from({ length: ROWS_PER_GROUP + 5000 }, (_, i) => ({
      key: `k${i}`,
      word: i % 3 === 0 ? null : `w${i % 700}`,
      measure: i % 5 === 0 ? null : Math.sin(i),
      coarse: i < ROWS_PER_GROUP ? 7 : i % 90,
      count: i % 20_000,
      flag: i % 2 === 0,
    }))
    const path = await written(rows, 1000)
    expect(await read(path)).toEqual(cellsOf(rows))
    const groups = await duck.runAndReadAll(
      `SELECT row_group_num_rows, path_in_schema, stats_min_value, stats_max_value, stats_null_count, encodings
         FROM parquet_metadata('${path}') WHERE path_in_schema IN ('coarse', 'measure', 'empty') ORDER BY 2, row_group_id`,
    )
    const facts = groups.getRows().map((row) => row.map(String))
    expect(facts.map((row) => row.slice(0, 5))).toEqual([
      [String(ROWS_PER_GROUP), 'coarse', '7.0', '7.0', '0'],
      ['5000', 'coarse', '-0.0', '89.0', '0'], // the least zero is −0
      [String(ROWS_PER_GROUP), 'empty', 'null', 'null', String(ROWS_PER_GROUP)],
      ['5000', 'empty', 'null', 'null', '5000'],
      [
        String(ROWS_PER_GROUP),
        'measure',
        ...bounds(rows.slice(0, ROWS_PER_GROUP)),
        String(Math.ceil(ROWS_PER_GROUP / 5)),
      ],
      ['5000', 'measure', ...bounds(rows.slice(ROWS_PER_GROUP)), '1000'],
    ])
    expect(facts[0]![5]).toContain('RLE_DICTIONARY')
    expect(facts[4]![5]).not.toContain('RLE_DICTIONARY')
  })

  it('gives back rows that are gathered in several parts, one of them larger than a part is', async () => {
    const rows = Array.from({ length: 12_000 }, (_, i) => ({
      ...{ key: `k${i}`, word: `${i} `.repeat(i === 7000 ? 4_000_000 : 800) },
      ...{ measure: i / 7, coarse: null, count: i, flag: null },
    }))
    expect(await read(await written(rows, 100))).toEqual(cellsOf(rows))
  })

  it('gives every row what its block begins with, also where a row group ends within a block', async () => {
    const rowsOf = (key: string, word: string | null, count: number) =>
      Array.from({ length: count }, (_, i) => ({
        ...{ key, word, measure: Number(`1${i}`), coarse: 4, count: i, flag: i % 2 === 0 },
      }))
    const blocks = [
      rowsOf('k1', 'calm', 3),
      rowsOf('k2', 'a "quoted", word', ROWS_PER_GROUP),
      rowsOf('k3', null, 2),
      ...Array.from({ length: 9000 }, (_, i) => rowsOf(`x${i}`, `w${i}`, 1 + (i % 4))),
    ]
    const path = await writtenBlocks(
      blocks.map((rows) => headedBlock(COLUMNS, rows, { headColumns: 2, begun: '1' })),
    )
    expect(await read(path)).toEqual(cellsOf(blocks.flat()))
  })

  it('is not made of a row without a value that is required', async () => {
    await expect(written([{ key: null }], 100)).rejects.toThrow('key must not be empty')
  })
})

function bounds(rows: readonly { readonly measure: number | null }[]): [string, string] {
  const values = rows.flatMap(({ measure }) => measure ?? [])
  return [String(Math.min(...values)), String(Math.max(...values))]
}
