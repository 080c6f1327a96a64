import fc from 'fast-check'
import { describe, expect, it } from 'vitest'

import { csvOf, formulaSafe } from '../../../../src/features/datasets/files/csv.ts'
import { CsvFault, CsvReader } from '../../../../src/features/datasets/files/csv-records.ts'
import type { Column } from '../../../../src/features/datasets/tables/column.ts'

const column = (name: string): Column => ({
  name,
  type: 'string',
  title: name,
  description: '',
  unit: null,
  nullable: true,
  minimum: null,
  maximum: null,
  values: null,
  pattern: null,
})

function read(bytes: Buffer, pieceBytes = bytes.length) {
  const reader = new CsvReader()
  const records = []
  for (let at = 0; at < bytes.length; at += pieceBytes) {
    records.push(...reader.push(bytes.subarray(at, at + pieceBytes)))
  }
  return [...records, ...reader.end()]
}

describe('CSV', () => {
  it('gives back every text and number that was written, however it is cut into pieces', () => {
    const cell = fc.oneof(
      fc.string({ unit: 'grapheme', maxLength: 8 }),
      fc.constantFrom('"', ',', '\r\n', '\n', 'a"b', '""'),
      fc.double({ noNaN: true, noDefaultInfinity: true }),
    )
    fc.assert(
      fc.property(
        fc.array(fc.tuple(cell, cell), { maxLength: 6 }),
        fc.integer({ min: 1, max: 40 }),
        (rows, piece) => {
          const columns = [column('a'), column('b')]
          const bytes = csvOf(
            columns,
            rows.map(([a, b]) => ({ a, b })),
          )
          const cells = read(bytes, piece).map((record) => record.cells)
          const written = (value: string | number) =>
            typeof value === 'string' ? formulaSafe(value) : String(value)
          expect(cells).toEqual([['a', 'b'], ...rows.map((row) => row.map(written))])
        },
      ),
    )
  })

  it('is never a formula', () => {
    for (const text of ['=1+1', '+1', '-1', '@SUM(A1)', '\tx', '\rx', '＝1']) {
      expect(formulaSafe(text)).toBe(`'${text}`)
    }
    expect(csvOf([column('a')], [{ a: -0.5 }, { a: '-0.5' }]).toString()).toBe(
      "a\r\n-0.5\r\n'-0.5\r\n",
    )
  })

  it('knows the line of every record, also after quoted line ends', () => {
    const records = read(Buffer.from('a,b\n"x\ny",1\r\nz,2'))
    expect(records.map(({ line }) => line)).toEqual([1, 2, 4])
    expect(records.at(-1)?.cells).toEqual(['z', '2'])
  })

  it('takes a byte order mark off, and says where text is no CSV', () => {
    expect(read(Buffer.from('\uFEFFa,b\n'))[0]?.cells).toEqual(['a', 'b'])
    expect(() => read(Buffer.from('a\n"open'))).toThrow(CsvFault)
    expect(() => read(Buffer.from('a\n"x"y\n'))).toThrow('closing quote')
    expect(() => read(Buffer.from([0x61, 0xff, 0x0a]))).toThrow('UTF-8')
  })
})
