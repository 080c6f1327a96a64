import { escapeLiteral } from 'pg'

import { QUASI_IDENTIFIERS, type QuasiIdentifier } from '../privacy/attributes.ts'
import type { ExportQuery } from '../schema.ts'

/**
 * The condition on entries that a question comes to. Filters look at what is shown, not at what is
 * known: an answer would otherwise tell what the columns hide.
 */
export function filterSql(query: ExportQuery): string {
  const conditions: string[] = []
  const keep = (condition: (value: string) => string, value: string | undefined) => {
    if (value !== undefined) conditions.push(condition(escapeLiteral(value)))
  }
  keep((id) => `unit.setup_id = ${survivor('setup', id)}`, query.setupId)
  keep((id) => `unit.setup_id IN (${setupsWith(id)})`, query.componentId)
  keep((name) => `${shownSql('all_up_mass_class')} = ${name}`, query.massClass)
  keep((month) => `${shownSql('flown_from')} >= ${month}`, query.from)
  keep((month) => `${shownSql('flown_to')} <= ${month}`, query.to)
  return conditions.length === 0 ? 'true' : conditions.join(' AND ')
}

/** A quasi-identifier as it is shown: a cell of the line, null where it is empty. */
function shownSql(column: QuasiIdentifier): string {
  return `nullif(split_part(unit.shown, ',', ${QUASI_IDENTIFIERS.indexOf(column) + 1}), '')`
}

/** A merged id stands for its survivor. */
function survivor(table: 'setup' | 'component', id: string): string {
  return `(SELECT COALESCE(merged_into_id, id) FROM ${table} WHERE id = ${id})`
}

function setupsWith(componentId: string): string {
  return `
    SELECT setup.id
      FROM setup JOIN component part
        ON part.id IN (setup.powerplant_id, setup.propeller_id, setup.frame_id)
     WHERE COALESCE(part.merged_into_id, part.id) = ${survivor('component', componentId)}`
}
