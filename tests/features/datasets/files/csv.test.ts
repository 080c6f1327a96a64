import { parse } from 'csv-parse/sync'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'

import { csvOf, formulaSafe } from '../../../../src/features/datasets/files/csv.ts'
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

describe('CSV', () => {
  it('gives back every text and number that was written', () => {
    const cell = fc.oneof(
      fc.string({ unit: 'grapheme', maxLength: 8 }),
      fc.constantFrom('"', ',', '\r\n', '\n', 'a"b', '""'),
      fc.double({ noNaN: true, noDefaultInfinity: true }),
    )
    fc.assert(
      fc.property(fc.array(fc.tuple(cell, cell), { maxLength: 6 }), (rows) => {
        const columns = [column('a'), column('b')]
        const bytes = csvOf(
          columns,
          rows.map(([a, b]) => ({ a, b })),
        )
        const written = (value: string | number) =>
          typeof value === 'string' ? formulaSafe(value) : String(value)
        expect(parse(bytes)).toEqual([['a', 'b'], ...rows.map((row) => row.map(written))])
      }),
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
})
