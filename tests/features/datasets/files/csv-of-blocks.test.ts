import fc from 'fast-check'
import { describe, expect, it } from 'vitest'

import { csvRows, type Row } from '../../../../src/features/datasets/files/csv.ts'
import { csvOfBlocks } from '../../../../src/features/datasets/files/csv-of-blocks.ts'
import { rowBlock } from '../../../../src/features/datasets/files/row-blocks.ts'
import type { Column } from '../../../../src/features/datasets/tables/column.ts'
import { headedBlock } from './headed-block.ts'

const COLUMNS = ['place', 'key', 'note', 'last'].map(
  (name): Column => ({
    ...{ name, type: 'string', nullable: true, title: name, description: '', unit: null },
    ...{ minimum: null, maximum: null, values: null, pattern: null },
  }),
)

const note = fc.constantFrom(null, 'plain', 'a, b', 'a "quote"', 'two\nlines', '"\r\n"', 'größer')

const anyBlock = fc.record({
  place: note,
  begun: fc.constantFrom('', 's', 's1-'),
  rest: fc.array(fc.record({ key: fc.stringMatching(/^[a-z0-9]{1,4}$/), note, last: note }), {
    maxLength: 5,
  }),
})

describe('the CSV of blocks', () => {
  it('is that of their rows', () => {
    fc.assert(
      fc.property(fc.array(anyBlock, { maxLength: 6 }), fc.boolean(), (given, isHeaded) => {
        const blocks = given.map(({ place, begun, rest }) =>
          rest.map(({ key, ...row }): Row => ({ place, key: begun + key, ...row })),
        )
        const bytes = blocks.map((rows, i) =>
          isHeaded
            ? headedBlock(COLUMNS, rows, { headColumns: 1, begun: given[i]!.begun })
            : rowBlock('', csvRows(COLUMNS, rows)),
        )
        expect(Buffer.from(csvOfBlocks(Buffer.concat(bytes))).toString()).toBe(
          csvRows(COLUMNS, blocks.flat()).toString(),
        )
      }),
    )
  })

  it.each(['a,b\r\nc,d', '"a,b\r\n'])(
    'is refused where the last row has no line end: %j',
    (rows) => {
      const broken = rowBlock('head,', Buffer.from(rows))
      expect(() => csvOfBlocks(broken)).toThrow('no line end')
      expect(() =>
        csvOfBlocks(Buffer.concat([broken, rowBlock('head,', Buffer.from('e,f\r\n'))])),
      ).toThrow('no line end')
    },
  )
})
