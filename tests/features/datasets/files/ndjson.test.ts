import { Readable } from 'node:stream'

import fc from 'fast-check'
import { describe, expect, it } from 'vitest'

import type { Row } from '../../../../src/features/datasets/files/csv.ts'
import { ndjsonFromBlocks } from '../../../../src/features/datasets/files/ndjson.ts'
import { rowBlock } from '../../../../src/features/datasets/files/row-blocks.ts'
import { blocksOfRows } from '../../../../src/features/datasets/release/tables-to-files.ts'
import type { Column, ColumnType } from '../../../../src/features/datasets/tables/column.ts'
import { headedBlock } from './headed-block.ts'

const column = (name: string, type: ColumnType): Column => ({
  ...{ name, type, nullable: true, title: name, description: '', unit: null },
  ...{ minimum: null, maximum: null, values: null, pattern: null },
})

const COLUMNS = [
  column('word', 'string'),
  column('measure', 'number'),
  column('flag', 'boolean'),
  column('month', 'yearmonth'),
  column('list', 'json'),
]

async function written(pieces: Iterable<Buffer>): Promise<string> {
  const parts: Buffer[] = []
  for await (const part of ndjsonFromBlocks(COLUMNS, Readable.from(pieces))) parts.push(part)
  return Buffer.concat(parts).toString('utf8')
}

const word = fc.oneof(
  fc.stringMatching(/^[a-z]{1,9}$/),
  fc.constantFrom(
    'a "quoted", word',
    'größer',
    '\u{10437}',
    'back\\slash',
    'bell\u0007',
    'two\nlines',
  ),
)

const anyRow = fc.record({
  word: fc.option(word),
  measure: fc.option(fc.double({ noNaN: true, noDefaultInfinity: true }).map((x) => x + 0)),
  flag: fc.option(fc.boolean()),
  month: fc.option(fc.constantFrom('2026-07', '2025-12')),
  list: fc.option(fc.constantFrom('[{"rpm":7800,"n":1.5}]', '[]')),
})

describe('newline-delimited JSON', () => {
  it('holds every cell by its name and type, however many rows come at a time', async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.array(anyRow, { minLength: 1, maxLength: 12 }),
        fc.integer({ min: 1, max: 5 }),
        async (rows, rowsAtATime) => {
          const lines = await written(blocksOfRows(COLUMNS, rows as Row[], rowsAtATime))
          const read = lines
            .split('\n')
            .slice(0, -1)
            .map((line) => JSON.parse(line))
          const expected = rows.map(({ list, ...row }) => ({
            ...row,
            list: list === null ? null : JSON.parse(list),
          }))
          expect(read).toEqual(expected)
          expect(lines.endsWith('\n')).toBe(true)
        },
      ),
    )
  })

  it('holds what the rows of a block begin with in each of them', async () => {
    const blocks = [
      ['calm', '2'],
      ['', '-3'],
      ['a "quoted", word', ''],
    ].map(([word, begun]) => {
      const rows = [7, 8].map((digit) => ({
        ...{ word: word!, measure: Number(`${begun}${digit}`), flag: null, month: '2026-07' },
        list: `[${digit}]`,
      }))
      return { rows, bytes: headedBlock(COLUMNS, rows, { headColumns: 1, begun: begun! }) }
    })
    const lines = await written([
      Buffer.concat(blocks.slice(0, 2).map(({ bytes }) => bytes)),
      blocks[2]!.bytes,
    ])
    expect(lines).toBe(
      blocks
        .flatMap(({ rows }) => rows)
        .map(({ word, list, ...row }) => ({ word: word || null, ...row, list: JSON.parse(list) }))
        .map((row) => `${JSON.stringify(row)}\n`)
        .join(''),
    )
  })

  it('takes an empty cell in quotes for none, like one without', async () => {
    expect(await written([rowBlock('', Buffer.from('"",,,,\r\n,1,,,\n'))])).toBe(
      '{"word":null,"measure":null,"flag":null,"month":null,"list":null}\n' +
        '{"word":null,"measure":1,"flag":null,"month":null,"list":null}\n',
    )
  })
})
