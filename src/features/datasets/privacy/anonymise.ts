import { setImmediate as breathe } from 'node:timers/promises'

import type { PoolClient } from 'pg'
import { to as copyTo } from 'pg-copy-streams'

import { generalise } from '../../../core/anonymity/generalise.ts'
import type { CodedRecords, SharedClass } from '../../../core/anonymity/types.ts'
import { type Anonymity, Tally } from './anonymity.ts'
import {
  type Attribute,
  attributesFor,
  type MonthRange,
  QUASI_IDENTIFIERS,
  type Shown,
} from './attributes.ts'
import { readIntegers } from './read-integers.ts'
import { factsSql, UNITS } from './units-sql.ts'

/** Pilots who must share whatever combination of quasi-identifiers is shown. */
export const K_PILOTS = 5

/** The temporary table dataset_unit, which goes with the transaction. */
const IN_DATASET_UNIT = `CREATE TEMP TABLE dataset_unit ON COMMIT DROP AS ${UNITS}`

/**
 * Draws the keys of every entry (a setup within a session) that counts, and the classes and ranges of
 * classes that may be shown of it. Keys follow from the salt: another salt gives other keys.
 *
 * Whatever combination is shown is shared by k pilots at least, and whoever knows all flights of a
 * pilot is left with k pilots at least. Fewer than k pilots show nothing.
 *
 * @param client inside the transaction whose snapshot is published, after {@link collectLateEntries}
 * @param put a statement that puts {@link UNITS} somewhere
 */
export async function anonymise(
  client: PoolClient,
  { layout, salt }: { readonly layout: string; readonly salt: string },
  put = IN_DATASET_UNIT,
): Promise<Anonymity> {
  await client.query(factsSql(layout))
  const { records, attributes, counts } = await readRecords(client)
  const tally = new Tally(records, attributes)
  const shown = [NOTHING]
  const shownOf = new Int32Array(records.persons.length)
  for (const classes of generalise(records, K_PILOTS)) {
    for (const one of classes) {
      const values = valuesOf(attributes, one)
      tally.add(one, values)
      for (const record of one.records) shownOf[record] = shown.length
      shown.push(QUASI_IDENTIFIERS.map((column) => values[column] ?? '').join(','))
    }
    await breathe() // other requests are served between groups of pilots
  }
  await client.query(put, [salt, shown, Array.from(shownOf)])
  return tally.result(K_PILOTS, counts)
}

/** The cells of the quasi-identifiers where none is shown. */
const NOTHING = ','.repeat(QUASI_IDENTIFIERS.length - 1)

function valuesOf(attributes: readonly Attribute[], { low, high }: SharedClass): Shown {
  return Object.assign({}, ...attributes.map(({ show }, c) => show(low[c]!, high[c]!)))
}

interface Facts {
  readonly records: CodedRecords
  readonly attributes: readonly Attribute[]
  readonly counts: { readonly pilots: number; readonly sessions: number }
}

/** The entries of dataset_fact as codes, in the order of their numbers. */
async function readRecords(client: PoolClient): Promise<Facts> {
  const { rows } = await client.query<MonthRange & Facts['counts']>(EXTENT)
  const { first, count, ...counts } = rows[0]!
  const attributes = attributesFor({ first, count })
  const columns = ['person', 'runs', ...attributes.map(({ codeColumn }) => codeColumn)]
  const copied = client.query(
    copyTo(`COPY (SELECT ${columns.join(', ')} FROM dataset_fact ORDER BY record) TO STDOUT`),
  )
  const [persons, weights, ...codes] = await readIntegers(copied, columns.length)
  const months = codes[attributes.findIndex(({ codeColumn }) => codeColumn === 'month')]!
  for (let record = 0; record < months.length; record++) months[record]! -= first - 1
  const levels = attributes.map((attribute) => attribute.levels)
  const columnWeights = attributes.map(({ weight }) => weight)
  const records = { persons: persons!, weights: weights!, codes, levels, columnWeights }
  return { records, attributes, counts }
}

const EXTENT = `
  SELECT COALESCE(min(month), 0) AS first, COALESCE(max(month) - min(month) + 1, 1) AS count,
         count(DISTINCT person)::int AS pilots, count(DISTINCT session)::int AS sessions
    FROM dataset_fact`
