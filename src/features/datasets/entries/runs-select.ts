import { escapeLiteral } from 'pg'

import { METHOD_VERSION } from '../../../core/version.ts'
import { MARK } from './entries-sql.ts'

const CRLF = `E'\\r\\n'`

/**
 * Lines of the file `runs`, those of an entry at a time, ready as CSV; in the order of the keys, which
 * are drawn at random, so that the order tells nothing either. Reads dataset_unit.
 *
 * @param kind only runs of that kind
 */
export function runsSelect(kind?: string): string {
  const keys = `unit.session_key || ',' || unit.pilot_key || ',' || unit.setup_id`
  return `
    SELECT replace(replace(replace(known.cells, E'${MARK.session}', unit.session_key),
             E'${MARK.keys}', ${keys}), E'${MARK.shown}', unit.shown)
      FROM ${UNITS_IN_ORDER}
     CROSS JOIN LATERAL (SELECT ${ofKind(storedText('cells'), kind)} AS cells ${ONCE}) known
     WHERE known.cells IS NOT NULL`
}

/** Lines of the file `systematic`, likewise. */
export function systematicSelect(): string {
  return `
    SELECT replace(known.lines, E'${MARK.session}', unit.session_key)
      FROM ${UNITS_IN_ORDER}
     CROSS JOIN LATERAL (SELECT ${storedText('systematic')} AS lines ${ONCE}) known
     WHERE known.lines <> ''`
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

/** The lines of a kind; null where there is none. The kind was checked to be a word. */
function ofKind(cells: string, kind: string | undefined): string {
  if (kind === undefined) return cells
  const start = escapeLiteral(`,${kind},`)
  return `(SELECT string_agg(line || ${CRLF}, '' ORDER BY place)
    FROM unnest(string_to_array(${cells}, ${CRLF})) WITH ORDINALITY AS one(line, place)
   WHERE starts_with(split_part(line, E'${MARK.keys}', 2), ${start}))`
}

/** How many runs the files hold of each metric. */
export const RUNS_PER_METRIC = `
  SELECT result.quantity AS metric, count(*)::int AS runs
    FROM dataset_unit unit
    JOIN run ON run.revision_id = unit.revision_id AND run.entry_index = unit.entry_index
    JOIN run_result result ON result.run_id = run.id AND result.method_version = '${METHOD_VERSION}'
   WHERE result.quantity IS NOT NULL
   GROUP BY result.quantity`
