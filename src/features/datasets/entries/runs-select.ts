import { escapeLiteral } from 'pg'

import { METHOD_VERSION } from '../../../core/version.ts'

const CRLF = `E'\\r\\n'`

/**
 * Entries with their keys in the snapshot in hand, in the order of the keys, which are drawn at random, so that
 * the order tells nothing either. The wide lines join after the narrow units are sorted.
 */
const UNITS_OF_SNAPSHOT =
  '(SELECT * FROM dataset_unit ORDER BY session_key, entry_index OFFSET 0) unit'

/** The lines of such an entry. */
function linesOfSnapshot(column: 'cells' | 'systematic'): string {
  const late = storedIn('dataset_late', column)
  return `CASE WHEN unit.is_late THEN ${late} ELSE ${storedIn('dataset_entry', column)} END`
}

function storedIn(table: string, column: string): string {
  return `(SELECT ${column} FROM ${table} stored
     WHERE stored.revision_id = unit.revision_id AND stored.entry_index = unit.entry_index)`
}

/**
 * Rows of the file `runs` of a release, those of an entry at a time: what they begin with alike (head),
 * and the rest of each as it is stored.
 */
export function runsSelect(): string {
  return runsOf(UNITS_OF_SNAPSHOT, linesOfSnapshot('cells'))
}

/**
 * Rows of a live export, likewise.
 *
 * @param condition which entries are asked for; speaks of `unit`
 * @param kind only runs of that kind
 */
export function exportSelect(condition: string, kind?: string): string {
  const units = `(SELECT * FROM export_unit unit WHERE ${condition} ORDER BY position OFFSET 0) unit`
  const rows = storedIn('dataset_entry', 'cells')
  return runsOf(units, kind === undefined ? rows : ofKind(rows, kind))
}

function runsOf(units: string, rows: string): string {
  return `
    SELECT concat_ws(',', unit.session_key, unit.pilot_key, unit.setup_id, unit.shown, unit.session_key) AS head,
           known.rows
      FROM ${units}
     CROSS JOIN LATERAL (SELECT ${rows} AS rows ${ONCE}) known
     WHERE known.rows IS NOT NULL`
}

/** Rows of the file `systematic` of a release, likewise. */
export function systematicSelect(): string {
  return `
    SELECT unit.session_key AS head, known.rows
      FROM ${UNITS_OF_SNAPSHOT}
     CROSS JOIN LATERAL (SELECT ${linesOfSnapshot('systematic')} AS rows ${ONCE}) known
     WHERE known.rows <> ''`
}

/** Keeps what stands before from being looked up once for its condition and once more for its value. */
const ONCE = 'OFFSET 0'

/** The rows of a kind; null where there is none. */
function ofKind(rows: string, kind: string): string {
  return `(SELECT string_agg(row || ${CRLF}, '' ORDER BY place)
    FROM unnest(string_to_array(${rows}, ${CRLF})) WITH ORDINALITY AS one(row, place)
   WHERE split_part(row, ',', 2) = ${escapeLiteral(kind)})`
}

/** How many runs the files hold of each metric. */
export const RUNS_PER_METRIC = `
  SELECT result.quantity AS metric, count(*)::int AS runs
    FROM dataset_unit unit
    JOIN run ON run.revision_id = unit.revision_id AND run.entry_index = unit.entry_index
    JOIN run_result result ON result.run_id = run.id AND result.method_version = '${METHOD_VERSION}'
   WHERE result.quantity IS NOT NULL
   GROUP BY result.quantity`
