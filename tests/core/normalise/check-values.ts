import { readFileSync } from 'node:fs'
import { expect } from 'vitest'

/** One row of tests/reference/check-values.json; `basis` says what kind of evidence it is. */
export interface CheckValue {
  readonly id: string
  readonly inputs: Readonly<Record<string, number>>
  readonly expected: number | readonly number[]
  readonly tolerance: number | readonly number[]
  readonly source: string
  readonly basis: string
  readonly from_memory: boolean
}

const FILE = new URL('../../reference/check-values.json', import.meta.url)
const { values } = JSON.parse(readFileSync(FILE, 'utf8')) as { values: readonly CheckValue[] }

/** The row of that id; an unknown id is a fault of the test. */
export function checkValue(id: string): CheckValue {
  const row = values.find((value) => value.id === id)
  if (row === undefined) throw new Error(`There is no check value ${id}`)
  return row
}

/** All rows whose id begins so. */
export function checkValues(prefix: string): readonly CheckValue[] {
  const rows = values.filter(({ id }) => id.startsWith(prefix))
  if (rows.length === 0) throw new Error(`There is no check value ${prefix}…`)
  return rows
}

/** Expects the quantities of a row within the tolerances that stand beside them. */
export function expectRow(row: CheckValue, actual: readonly number[]): void {
  const expected = [row.expected].flat()
  const tolerance = [row.tolerance].flat()
  expect(actual).toHaveLength(expected.length)
  actual.forEach((value, index) => {
    const distance = Math.abs(value - expected[index]!)
    const text = `${row.id}[${index}]: ${value}, expected ${expected[index]} ± ${tolerance[index]}`
    expect(distance <= tolerance[index]!, text).toBe(true)
  })
}
