import { OutOfRangeError } from '../errors.ts'
import { cohortsOf } from './cohorts.ts'
import { splitCohort } from './split.ts'
import type { CodedRecords, SharedClass } from './types.ts'

/**
 * Coarsens records of people until nobody can be singled out, keeping as much as it can. Every class
 * it gives shows one range per column and is shared by k persons at least. And whoever knows all
 * records of a person and keeps only those persons who have a record in every class that person is
 * in, is left with k persons at least.
 *
 * Classes begin as everything and are cut in two, at the column and place where the most is won,
 * while both rules hold: Mondrian's greedy cuts (local recoding), with the second rule added. The
 * same records give the same classes.
 *
 * @param k persons who must share; 2 or more
 * @returns the classes of one group of persons after the other; records that are in none must show
 *   nothing (there are fewer than k persons)
 * @throws {OutOfRangeError} for k below 2
 * @source LeFevre, DeWitt, Ramakrishnan 2006, Mondrian multidimensional k-anonymity (the cuts)
 */
export function* generalise(records: CodedRecords, k: number): Generator<SharedClass[]> {
  if (!(k >= 2)) throw new OutOfRangeError('k', k, 2, Number.POSITIVE_INFINITY)
  for (const cohort of cohortsOf(records, k)) yield splitCohort(records, cohort, k)
}
