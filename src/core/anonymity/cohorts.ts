import type { CodedRecords } from './types.ts'

/** Persons who are looked at together: far more than k, so that cuts lose little, and few enough to be quick. */
const COHORT = 256

/** Some persons and all their records. */
export interface Cohort {
  readonly members: number
  readonly records: Int32Array
  /** Number within the cohort of the person of each of these records. */
  readonly memberOf: Int32Array
}

/**
 * People sorted by what they are like and taken in groups; fewer than k people are no group.
 *
 * @source derived here
 */
export function cohortsOf(records: CodedRecords, k: number): Cohort[] {
  const recordsOf = recordsByPerson(records.persons)
  const persons = sortedByProfile(records, recordsOf)
  const cohorts: Cohort[] = []
  const groups = Math.max(1, Math.floor(persons.length / COHORT))
  for (let group = 0; group < groups; group++) {
    const end = group === groups - 1 ? persons.length : (group + 1) * COHORT
    const some = persons.slice(group * COHORT, end)
    if (some.length >= k) cohorts.push(cohortOf(some, recordsOf))
  }
  return cohorts
}

function recordsByPerson(persons: Int32Array): Map<number, number[]> {
  const byPerson = new Map<number, number[]>()
  for (let record = 0; record < persons.length; record++) {
    const known = byPerson.get(persons[record]!)
    if (known === undefined) byPerson.set(persons[record]!, [record])
    else known.push(record)
  }
  return byPerson
}

/** Persons by the middle of their codes, column after column; whom nothing tells apart by number. */
function sortedByProfile(
  { codes }: CodedRecords,
  recordsOf: ReadonlyMap<number, readonly number[]>,
): number[] {
  const profiles = [...recordsOf].map(([person, own]) => ({
    person,
    middles: codes.map((column) => {
      const values = own.map((record) => column[record]!)
      return Math.min(...values) + Math.max(...values)
    }),
  }))
  profiles.sort((a, b) => {
    const c = a.middles.findIndex((middle, column) => middle !== b.middles[column])
    return c === -1 ? a.person - b.person : a.middles[c]! - b.middles[c]!
  })
  return profiles.map(({ person }) => person)
}

function cohortOf(
  persons: readonly number[],
  recordsOf: ReadonlyMap<number, readonly number[]>,
): Cohort {
  const records: number[] = []
  const memberOf: number[] = []
  for (const [member, person] of persons.entries()) {
    for (const record of recordsOf.get(person)!) {
      records.push(record)
      memberOf.push(member)
    }
  }
  return {
    members: persons.length,
    records: Int32Array.from(records),
    memberOf: Int32Array.from(memberOf),
  }
}
