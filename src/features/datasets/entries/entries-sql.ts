import { createHash } from 'node:crypto'

import { METHOD_VERSION } from '../../../core/version.ts'
import { SUBMISSION_COUNTS } from '../../../db/counted-submissions.ts'
import { QUASI_IDENTIFIERS } from '../privacy/attributes.ts'
import {
  AIR_MOTIONS,
  classCodeSql,
  ELEVATION_BOUNDS,
  INTERESTS,
  MASS_BOUNDS,
  WING_AREA_BOUNDS,
  wordCodeSql,
} from '../tables/classes.ts'
import type { Column } from '../tables/column.ts'
import type { Tables } from '../tables/tables.ts'
import { cellSql, rawDefinition, rawSql } from './cells-sql.ts'

/** Raised when the stored cells change their form. */
const ENTRY_FORMAT = 2

const METHOD = `'${METHOD_VERSION}'`

/**
 * The first columns of `runs`, which are the same for all runs of an entry and belong to an export: stored rows
 * begin in the middle of the next one, {@link RUN_KEY_END}.
 */
const HEAD_COLUMNS = ['session_key', 'pilot_key', 'setup_id', ...QUASI_IDENTIFIERS] as const

/** What the key of a run has after the key of its session. */
const RUN_KEY_END = `'-' || run.entry_index || '-' || run.run_index`

/** Expressions of the columns of `runs` that are not read off the body, by column. */
const COMPUTED: Readonly<Record<string, string>> = {
  run_key: RUN_KEY_END,
  kind: 'run.kind',
  metric: 'result.quantity',
  log_value: 'result.log_value',
  own_standard_uncertainty: 'result.own_standard_uncertainty',
  shared_standard_uncertainty: 'result.shared_standard_uncertainty',
  normalized_metric: `result.normalized ->> 'metric'`,
  normalized_value: `(result.normalized ->> 'value')::float8`,
  normalized_unit: `result.normalized ->> 'unit'`,
  normalized_standard_uncertainty: `(result.normalized ->> 'standardUncertainty')::float8`,
  method_version: 'result.method_version',
  reference_id: 'result.reference_id',
}

/** Names what the stored cells were written for; other columns or versions have another. */
export function layoutOf({ all }: Tables): string {
  const form = JSON.stringify([
    ENTRY_FORMAT,
    METHOD_VERSION,
    all.runs.columns,
    all.systematic.columns,
  ])
  return createHash('sha256').update(form).digest('hex').slice(0, 16)
}

const WING_AREA = `COALESCE((revision.body #>> '{wing,flatAreaM2}')::float8,
  (SELECT wing.flat_area_m2 FROM component asked
     JOIN component wing ON wing.id = COALESCE(asked.merged_into_id, asked.id)
    WHERE asked.id = (revision.body #>> '{wing,id}')::uuid))`

const MASS = `(revision.body #>> ARRAY['entries', flown.entry_index::text, 'allUpMassKg'])`

/** The entries that count and that nothing is stored for yet, as rows of dataset_entry. */
export function missingEntries(tables: Tables): string {
  const layout = `'${layoutOf(tables)}'`
  return `
  SELECT revision.id AS revision_id, flown.entry_index, ${layout} AS layout, flown.setup_id, flown.runs,
         (12 * extract(year FROM revision.flown_on) + extract(month FROM revision.flown_on) - 1)::int AS month,
         ${wordCodeSql('revision.interest', INTERESTS)} AS interest_code,
         ${classCodeSql(MASS, MASS_BOUNDS)} AS mass_code,
         ${classCodeSql('revision.elevation_m', ELEVATION_BOUNDS)} AS elevation_code,
         ${classCodeSql(WING_AREA, WING_AREA_BOUNDS)} AS wing_area_code,
         ${wordCodeSql(`revision.body #>> '{conditions,airMotion}'`, AIR_MOTIONS)} AS air_motion_code,
         flown.cells, flown.systematic
    FROM submission
    JOIN submission_revision revision
      ON revision.submission_id = submission.id AND revision.number = submission.current_revision
   CROSS JOIN LATERAL (${flownSql(tables)}) flown
   WHERE ${SUBMISSION_COUNTS}
     AND NOT EXISTS (SELECT FROM dataset_entry entry
                      WHERE entry.revision_id = revision.id AND entry.layout = ${layout})`
}

/** The entries of a revision with the rows of their runs. */
function flownSql({ all, rawFields }: Tables): string {
  const raw = new Map(rawFields.map((field) => [field.column.name, rawSql(field)]))
  const cellOf = (column: Column) => {
    const expression = COMPUTED[column.name] ?? raw.get(column.name)
    if (expression === undefined) throw new Error(`nothing gives the column ${column.name} of runs`)
    return cellSql(column, expression)
  }
  const row = rowOf(ownColumns(all.runs.columns).map(cellOf))
  const systematic = `(SELECT COALESCE(string_agg(${SYSTEMATIC_LINE}, '' ORDER BY cause, reach), '')
    FROM (SELECT cause, reach, sum(effect) AS effect
            FROM jsonb_to_recordset(result.systematic) AS one(cause text, reach text, effect float8)
           WHERE result.quantity IS NOT NULL GROUP BY cause, reach) effects)`
  return `
    SELECT run.entry_index, min(run.setup_id::text)::uuid AS setup_id, count(*)::int AS runs,
           string_agg(${row}, '' ORDER BY run.run_index) AS cells,
           string_agg(${systematic}, '' ORDER BY run.run_index) AS systematic
      FROM run
      JOIN run_result result ON result.run_id = run.id AND result.method_version = ${METHOD}
     CROSS JOIN LATERAL jsonb_to_record(
             revision.body #> ARRAY['entries', run.entry_index::text, 'runs', run.run_index::text])
        AS raw(${rawFields.map(rawDefinition).join(', ')})
     WHERE run.revision_id = revision.id
     GROUP BY run.entry_index`
}

const SYSTEMATIC_LINE = rowOf([
  RUN_KEY_END,
  cellSql({ type: 'string' }, 'cause'),
  'reach',
  'effect',
])

/** Cells with commas between them and a line end. */
function rowOf(cells: readonly string[]): string {
  return `${cells.join(` || ',' || `)} || E'\\r\\n'`
}

/** The columns behind those of the head. */
function ownColumns(columns: readonly Column[]): readonly Column[] {
  const names = [...HEAD_COLUMNS, 'run_key']
  if (names.some((name, index) => columns[index]?.name !== name)) {
    throw new Error(`the columns of runs must begin with ${names.join(', ')}`)
  }
  return columns.slice(HEAD_COLUMNS.length)
}
