import type { PoolClient } from 'pg'

import { QUASI_IDENTIFIERS, type QuasiIdentifier } from '../privacy/attributes.ts'
import type { ExportQuery } from '../schema.ts'

/**
 * Takes from dataset_unit what was not asked for. Filters look at what is shown, not at what is
 * known: an answer would otherwise tell what the columns hide.
 */
export async function applyFilter(client: PoolClient, query: ExportQuery): Promise<void> {
  const conditions: string[] = []
  const values: unknown[] = []
  const keep = (condition: (place: string) => string, value: unknown) => {
    if (value === undefined) return
    values.push(value)
    conditions.push(condition(`$${values.length}`))
  }
  keep((p) => `unit.setup_id = ${SURVIVOR('setup', p)}`, query.setupId)
  keep((p) => `${SURVIVOR('component', p)} IN (${PARTS})`, query.componentId)
  keep((p) => `${shownSql('all_up_mass_class')} = ${p}`, query.massClass)
  keep((p) => `${shownSql('flown_from')} >= ${p}`, query.from)
  keep((p) => `${shownSql('flown_to')} <= ${p}`, query.to)
  if (conditions.length === 0) return
  await client.query(
    `DELETE FROM dataset_unit unit WHERE (${conditions.join(' AND ')}) IS NOT TRUE`,
    values,
  )
}

/** A quasi-identifier as it is shown: a cell of the line, null where it is empty. */
function shownSql(column: QuasiIdentifier): string {
  return `nullif(split_part(unit.shown, ',', ${QUASI_IDENTIFIERS.indexOf(column) + 1}), '')`
}

/** A merged id stands for its survivor. */
const SURVIVOR = (table: 'setup' | 'component', place: string) =>
  `(SELECT COALESCE(merged_into_id, id) FROM ${table} WHERE id = ${place})`

const PARTS = `
  SELECT COALESCE(part.merged_into_id, part.id)
    FROM setup JOIN component part
      ON part.id IN (setup.powerplant_id, setup.propeller_id, setup.frame_id)
   WHERE setup.id = unit.setup_id`
