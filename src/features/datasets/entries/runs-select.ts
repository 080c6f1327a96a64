import { escapeLiteral } from 'pg'

import { METHOD_VERSION } from '../../../core/version.ts'

const CRLF = `E'\\r\\n'`

/**
 * Rows of the file `runs`, those of an entry at a time: what they begin with alike (head), and the rest
 * of each as it is stored; in the order of the keys, which are drawn at random, so that the order tells
 * nothing either. Reads dataset_unit.
 *
 * @param kind only runs of that kind
 */
export function runsSelect(kind?: string): string {
  return `
    SELECT concat_ws(',', unit.session_key, unit.pilot_key, unit.setup_id, unit.shown, unit.session_key) AS head,
           known.rows
      FROM ${UNITS_IN_ORDER}
     CROSS JOIN LATERAL (SELECT ${ofKind(storedText('cells'), kind)} AS rows ${ONCE}) known
     WHERE known.rows IS NOT NULL`
}

/** Rows of the file `systematic`, likewise. */
export function systematicSelect(): string {
  return `
    SELECT unit.session_key AS head, known.rows
      FROM ${UNITS_IN_ORDER}
     CROSS JOIN LATERAL (SELECT ${storedText('systematic')} AS rows ${ONCE}) known
     WHERE known.rows <> ''`
}

/** Keeps what stands before from being looked up once for its condition and once more for its value. */
const ONCE = 'OFFSET 0'

/** The wide cells join after the narrow units are sorted. */
const UNITS_IN_ORDER = `
  (SELECT * FROM dataset_unit ORDER BY session_key, entry_index OFFSET 0) unit`

function storedText(column: 'cells' | 'systematic'): string {
  const from = (table: string) =>
    `(SELECT ${column} FROM ${table} stored
       WHERE stored.revision_id = unit.revision_id AND stored.entry_index = unit.entry_index)`
  return `CASE WHEN unit.is_late THEN ${from('dataset_late')} ELSE ${from('dataset_entry')} END`
}

/** The rows of a kind; null where there is none. The kind was checked to be a word. */
function ofKind(rows: string, kind: string | undefined): string {
  if (kind === undefined) return rows
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
