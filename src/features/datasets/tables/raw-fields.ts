import { z } from 'zod'

import { type Column, columnFrom, columnName, type PropertySchema } from './column.ts'

/** A field of a kind of run, as the body of a submission has it, and the column it becomes. */
export interface RawField {
  /** Its name in the body: heightGainM. */
  readonly field: string
  readonly column: Column
  /** For a list: the numbers of each of its items. */
  readonly itemNumbers: readonly string[] | null
}

/** Text that a person is free to write never leaves; these lists of words may. */
const isWord = ({ type, enum: words, const: word }: PropertySchema) =>
  type === 'string' && (words !== undefined || word !== undefined)

const isPlain = (schema: PropertySchema) =>
  schema.type === 'number' ||
  schema.type === 'integer' ||
  schema.type === 'boolean' ||
  isWord(schema)

/**
 * What was read off during a run, as columns: every field of every kind, each once, out of the
 * schema that submissions are checked by. A further kind of run so brings its columns along. Left
 * out are `kind` (a column of its own), stated uncertainties, and free text.
 */
export function rawFieldsOf(runs: z.ZodType): RawField[] {
  const union = z.toJSONSchema(runs, { io: 'input' }) as {
    readonly oneOf?: readonly PropertySchema[]
    readonly anyOf?: readonly PropertySchema[]
  }
  const found = new Map<string, { schema: PropertySchema; kinds: string[] }>()
  for (const kind of union.oneOf ?? union.anyOf ?? []) {
    for (const [field, schema] of Object.entries(kind.properties ?? {})) {
      if (field === 'kind') continue
      const known = found.get(field) ?? { schema, kinds: [] }
      known.kinds.push(kind.properties?.kind?.const ?? '')
      known.schema = merge(known.schema, schema)
      found.set(field, known)
    }
  }
  return [...found].flatMap(([field, { schema, kinds }]) => rawField(field, schema, kinds))
}

/** Two kinds may take different words for one field. */
function merge(a: PropertySchema, b: PropertySchema): PropertySchema {
  const words = [...wordsOf(a), ...wordsOf(b)]
  if (words.length === 0) return a
  const { const: _, ...rest } = a
  return { ...rest, enum: [...new Set(words)] }
}

function wordsOf({ enum: words, const: word }: PropertySchema): readonly string[] {
  return words ?? (word === undefined ? [] : [word])
}

function rawField(field: string, schema: PropertySchema, kinds: readonly string[]): RawField[] {
  // What stands beside the readings of an item, such as stated uncertainties, stays out as elsewhere.
  const items = Object.entries(schema.items?.properties ?? {}).filter(([, s]) => isPlain(s))
  const isList = schema.type === 'array' && items.length > 0
  if (!isPlain(schema) && !isList) return []
  const told = unitAndText(schema.description ?? '')
  const rounded = schema.type === 'number' || schema.type === 'integer' || isList
  const { minimum: _low, maximum: _high, ...property } = schema
  const column = columnFrom(columnName(field), {
    ...(isList ? {} : property),
    ...(schema.type === 'integer' ? { type: 'number' } : {}),
    title: field,
    description: [
      told.text,
      `Given for ${kinds.join(', ')}.`,
      ...(rounded ? ['Rounded to two significant digits.'] : []),
    ].join(' '),
    ...(told.unit === null ? {} : { unit: told.unit }),
    ...(isList ? { columnType: 'json' as const } : {}),
  })
  const itemNumbers = isList ? items.filter(([, s]) => s.type === 'number').map(([n]) => n) : null
  return [{ field, column: { ...column, nullable: true }, itemNumbers }]
}

/** Descriptions end in their unit: "Height gained [m]". */
function unitAndText(description: string): { unit: string | null; text: string } {
  const match = /\s*\[([^\]]+)\](.*)$/s.exec(description)
  const text = match === null ? description : description.slice(0, match.index) + match[2]
  return { unit: match?.[1] ?? null, text: text.endsWith('.') || text === '' ? text : `${text}.` }
}
