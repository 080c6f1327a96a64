import { METHOD_VERSION } from '../../../core/version.ts'
import type { RawField } from '../tables/raw-fields.ts'
import { QUASI_IDENTIFIERS, shownSql } from './anonymise.ts'

/** COPY takes no parameters. */
const METHOD = `'${METHOD_VERSION}'`

const RUN_KEY = `unit.session_key || '-' || run.entry_index || '-' || run.run_index`

const FROM = `
  FROM dataset_unit unit
  JOIN run ON run.revision_id = unit.revision_id AND run.entry_index = unit.entry_index`

/** Expressions of the columns of `runs` that are not read off the body, by column. */
const COMPUTED: Readonly<Record<string, string>> = {
  run_key: RUN_KEY,
  session_key: 'unit.session_key',
  pilot_key: 'unit.pilot_key',
  setup_id: 'unit.setup_id',
  kind: 'run.kind',
  ...Object.fromEntries(QUASI_IDENTIFIERS.map((column) => [column, shownSql(column)])),
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

/** Which rows, where not all: values were checked against the words of their schema. */
export interface RunsFilter {
  /** Restricts `dataset_unit` and `run`; already safe SQL. */
  readonly where: string
}

/**
 * The select behind every form of `runs`, in the order of the columns of the table. Sorted by the
 * keys, which are drawn at random, so that the order tells nothing either.
 */
export function runsSelect(
  columns: readonly { readonly name: string }[],
  rawFields: readonly RawField[],
  { where }: RunsFilter = { where: 'true' },
): string {
  const raw = new Map(rawFields.map((field) => [field.column.name, rawSql(field)]))
  const expressions = columns.map(({ name }) => {
    const expression = COMPUTED[name] ?? raw.get(name)
    if (expression === undefined) throw new Error(`nothing gives the column ${name} of runs`)
    return `${expression} AS ${name}`
  })
  return `
    SELECT ${expressions.join(',\n           ')}
    ${FROM}
      JOIN run_result result ON result.run_id = run.id AND result.method_version = ${METHOD}
     CROSS JOIN LATERAL jsonb_to_record(unit.raw_runs -> run.run_index)
       AS raw(${rawFields.map(rawDefinition).join(', ')})
     WHERE ${where}
     ORDER BY unit.session_key, run.entry_index, run.run_index`
}

/** The select behind `systematic`. */
export function systematicSelect(): string {
  return `
    SELECT ${RUN_KEY} AS run_key, effect.cause, effect.reach, sum(effect.effect) AS effect
    ${FROM}
      JOIN run_result result ON result.run_id = run.id AND result.method_version = ${METHOD}
     CROSS JOIN LATERAL jsonb_to_recordset(result.systematic)
       AS effect(cause text, reach text, effect float8)
     WHERE result.quantity IS NOT NULL
     GROUP BY unit.session_key, run.entry_index, run.run_index, effect.cause, effect.reach
     ORDER BY unit.session_key, run.entry_index, run.run_index, effect.cause, effect.reach`
}

/** How many runs the files hold of each metric. */
export const RUNS_PER_METRIC = `
  SELECT result.quantity AS metric, count(*)::int AS runs
  ${FROM}
    JOIN run_result result ON result.run_id = run.id AND result.method_version = ${METHOD}
   WHERE result.quantity IS NOT NULL
   GROUP BY result.quantity`

function rawDefinition({ field, column }: RawField): string {
  const type = { number: 'float8', json: 'jsonb', boolean: 'boolean' }[column.type as string]
  return `"${field}" ${type ?? 'text'}`
}

function rawSql({ field, column, itemNumbers }: RawField): string {
  const value = `raw."${field}"`
  if (column.type === 'number') return coarse(value)
  if (column.type === 'boolean') return `${value}::text` // true and false, not t and f
  if (column.type !== 'json') return value
  const items = (itemNumbers ?? []).map(
    (name) => `'${name}', ${coarse(`(item ->> '${name}')::float8`)}`,
  )
  return `(SELECT jsonb_agg(jsonb_build_object(${items.join(', ')}) ORDER BY place)
             FROM jsonb_array_elements(${value}) WITH ORDINALITY AS list(item, place))`
}

/** Two significant digits; whole powers of ten on either side of the rounding keep it exact. */
function coarse(x: string): string {
  const size = `floor(log(abs(${x})))`
  return `CASE WHEN ${x} = 0 THEN 0
    WHEN abs(${x}) >= 10 THEN round(${x} / power(10, ${size} - 1)) * power(10, ${size} - 1)
    ELSE round(${x} * power(10, 1 - ${size})) / power(10, 1 - ${size}) END`
}
