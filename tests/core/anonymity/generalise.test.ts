import fc from 'fast-check'
import { describe, expect, it } from 'vitest'

import { generalise } from '../../../src/core/anonymity/generalise.ts'
import { keptShare } from '../../../src/core/anonymity/kept-share.ts'
import type { CodedRecords, SharedClass } from '../../../src/core/anonymity/types.ts'

const K = 3

/** Records as rows: person, then the code of each of two columns. */
function recordsOf(
  rows: readonly (readonly [number, number, number])[],
  levels = [4, 6],
): CodedRecords {
  return {
    persons: Int32Array.from(rows, ([person]) => person),
    weights: Int32Array.from(rows, () => 1),
    codes: [Int32Array.from(rows, ([, a]) => a), Int32Array.from(rows, ([, , b]) => b)],
    levels,
    columnWeights: [1, 1],
  }
}

const classesOf = (records: CodedRecords, k = K): SharedClass[] =>
  [...generalise(records, k)].flat()

const personsIn = ({ persons }: CodedRecords, { records }: SharedClass) =>
  new Set(Array.from(records, (record) => persons[record]!))

/** Who is left to somebody who knows every record of a person and asks for rows that fit each of them. */
function leftAfterLinking(records: CodedRecords, classes: readonly SharedClass[], person: number) {
  const fitting = [...records.persons.keys()]
    .filter((record) => records.persons[record] === person)
    .map((record) => {
      const holds = classes.filter(({ low, high }) =>
        records.codes.every((codes, c) => low[c]! <= codes[record]! && codes[record]! <= high[c]!),
      )
      return new Set(holds.flatMap((one) => [...personsIn(records, one)]))
    })
  return [...fitting[0]!].filter((other) => fitting.every((persons) => persons.has(other)))
}

const anyRecords = fc
  .array(
    fc.tuple(
      fc.integer({ min: 0, max: 9 }),
      fc.integer({ min: 0, max: 4 }),
      fc.integer({ min: 1, max: 6 }),
    ),
    { minLength: 1, maxLength: 60 },
  )
  .map((rows) => recordsOf(rows))

describe('generalised records', () => {
  it('are shared by k persons, class by class', () => {
    fc.assert(
      fc.property(anyRecords, (records) => {
        for (const one of classesOf(records))
          expect(personsIn(records, one).size).toBeGreaterThanOrEqual(K)
      }),
    )
  })

  it('leave k persons to who knows all records of one', () => {
    fc.assert(
      fc.property(anyRecords, (records) => {
        const classes = classesOf(records)
        if (classes.length === 0) return
        for (const person of new Set(records.persons)) {
          expect(leftAfterLinking(records, classes, person).length).toBeGreaterThanOrEqual(K)
        }
      }),
    )
  })

  it('are each in one class that holds its codes, or nobody is in any', () => {
    fc.assert(
      fc.property(anyRecords, (records) => {
        const seen = classesOf(records).flatMap(({ records: own, low, high }) => {
          for (const record of own) {
            records.codes.forEach((codes, c) => {
              expect(codes[record]).toBeGreaterThanOrEqual(low[c]!)
              expect(codes[record]).toBeLessThanOrEqual(high[c]!)
            })
          }
          return [...own]
        })
        const isEnough = new Set(records.persons).size >= K
        expect(seen.sort((a, b) => a - b)).toEqual(isEnough ? [...records.persons.keys()] : [])
      }),
    )
  })

  it('are the same every time', () => {
    fc.assert(
      fc.property(anyRecords, (records) => {
        expect(classesOf(records)).toEqual(classesOf(records))
      }),
    )
  })

  it('keep everything where k persons share everything', () => {
    const rows = [1, 2].flatMap((code) =>
      [0, 1, 2].map((n) => [3 * code + n, code, 2 * code] as const),
    )
    const classes = classesOf(recordsOf(rows))
    expect(classes.map(({ low, high }) => [low, high])).toEqual([
      [
        [1, 2],
        [1, 2],
      ],
      [
        [2, 4],
        [2, 4],
      ],
    ])
  })

  it('are split by time where everybody flew at both times, though nobody is like another', () => {
    const rows = [0, 1, 2].flatMap((person) => [
      [person, person + 1, 1] as const,
      [person, person + 1, 6] as const,
    ])
    const classes = classesOf(recordsOf(rows))
    expect(classes.map(({ low, high }) => [low, high])).toEqual([
      [
        [1, 1],
        [3, 1],
      ],
      [
        [1, 6],
        [3, 6],
      ],
    ])
  })

  it('are not cut where the cut would tell who was there only once', () => {
    // Three flew early and late, one only early: without him, three are left; with him, he would be
    // among four early; a fourth time alone would single him out.
    const rows = [0, 1, 2].flatMap((person) => [[person, 1, 1] as const, [person, 1, 6] as const])
    const classes = classesOf(recordsOf([...rows, [3, 1, 3] as const]))
    for (const one of classes)
      expect(personsIn(recordsOf([...rows, [3, 1, 3]]), one).size).toBeGreaterThanOrEqual(K)
    expect(classes.some(({ low, high }) => low[1] === 3 && high[1] === 3)).toBe(false)
  })

  it('need two persons to share', () => {
    expect(() => classesOf(recordsOf([[0, 1, 1]]), 1)).toThrow('k must lie in')
  })
})

it('keeps all of one class, nothing of all classes or of what is not known', () => {
  expect(keptShare(2, 2, 5)).toBe(1)
  expect(keptShare(1, 5, 5)).toBe(0)
  expect(keptShare(0, 0, 5)).toBe(0)
  expect(keptShare(2, 3, 5)).toBe(0.75)
})
