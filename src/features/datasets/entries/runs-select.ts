import { escapeLiteral } from 'pg'

import { METHOD_VERSION } from '../../../core/version.ts'

const CRLF = `E'\\r\\n'`

/** Entries with their keys, and where the lines of each are stored. */
interface Units {
  /** Called unit, in the order of the keys, which are drawn at random, so that the order tells nothing either. */
  readonly inOrder: string
  readonly lines: (column: 'cells' | 'systematic') => string
}

const storedIn = (table: string, column: string) =>
  `(SELECT ${column} FROM ${table} stored
     WHERE stored.revision_id = unit.revision_id AND stored.entry_index = unit.entry_index)`

/** Those of the snapshot in hand: dataset_unit. The wide lines join after the narrow units are sorted. */
const OF_SNAPSHOT: Units = {
  inOrder: '(SELECT * FROM dataset_unit ORDER BY session_key, entry_index OFFSET 0) unit',
  lines: (column) =>
    `CASE WHEN unit.is_late THEN ${storedIn('dataset_late', column)} ELSE ${storedIn('dataset_entry', column)} END`,
}

/** Those that are stored for live exports, as far as a condition holds of them. */
const ofExports = (condition: string): Units => ({
  inOrder: `(SELECT * FROM export_unit unit WHERE ${condition} ORDER BY position OFFSET 0) unit`,
  lines: (column) => storedIn('dataset_entry', column),
})

/**
 * Rows of the file `runs` of a release, those of an entry at a time: what they begin with alike (head),
 * and the rest of each as it is stored.
 */
export function runsSelect(): string {
  return runsOf(OF_SNAPSHOT, (rows) => rows)
}

/**
 * Rows of a live export, likewise.
 *
 * @param condition which entries are asked for; speaks of `unit`
 * @param kind only runs of that kind
 */
export function exportSelect(condition: string, kind: string | undefined): string {
  return runsOf(ofExports(condition), (rows) => (kind === undefined ? rows : ofKind(rows, kind)))
}

function runsOf({ inOrder, lines }: Units, asked: (rows: string) => string): string {
  return `
    SELECT concat_ws(',', unit.session_key, unit.pilot_key, unit.setup_id, unit.shown, unit.session_key) AS head,
           known.rows
      FROM ${inOrder}
     CROSS JOIN LATERAL (SELECT ${asked(lines('cells'))} AS rows ${ONCE}) known
     WHERE known.rows IS NOT NULL`
}

/** Rows of the file `systematic` of a release, likewise. */
export function systematicSelect(): string {
  return `
    SELECT unit.session_key AS head, known.rows
      FROM ${OF_SNAPSHOT.inOrder}
     CROSS JOIN LATERAL (SELECT ${OF_SNAPSHOT.lines('systematic')} AS rows ${ONCE}) known
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
