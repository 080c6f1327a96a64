import type { Column } from '../tables/column.ts'
import type { RawField } from '../tables/raw-fields.ts'

/** A value as a cell of CSV, as SQL: text in quotes where it needs them, nothing for null. */
export function cellSql({ type }: Pick<Column, 'type'>, expression: string): string {
  const text = `(${expression})::text`
  if (type === 'number' || type === 'integer' || type === 'boolean') return `COALESCE(${text}, '')`
  return `COALESCE(CASE WHEN ${text} ~ '[",\\r\\n]'
    THEN '"' || replace(${text}, '"', '""') || '"' ELSE ${text} END, '')`
}

/** A field of a run as jsonb_to_record wants it. */
export function rawDefinition({ field, column }: RawField): string {
  const type = { number: 'float8', json: 'jsonb', boolean: 'boolean' }[column.type as string]
  return `"${field}" ${type ?? 'text'}`
}

/** A field of a run as it is shown: numbers rounded. */
export function rawSql({ field, column, itemNumbers }: RawField): string {
  const value = `raw."${field}"`
  if (column.type === 'number') return coarse(value)
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
