import { z } from 'zod'

/** Types of values in the files; `json` is text that holds JSON. */
export type ColumnType = 'string' | 'number' | 'integer' | 'boolean' | 'yearmonth' | 'json'

/** What a column holds, for every form of the files and their descriptions. */
export interface Column {
  readonly name: string
  readonly type: ColumnType
  readonly title: string
  readonly description: string
  /** As people write it; '1' for a pure number, null where a unit makes no sense. */
  readonly unit: string | null
  /** False: never empty. */
  readonly nullable: boolean
  readonly minimum: number | null
  readonly maximum: number | null
  readonly values: readonly string[] | null
  readonly pattern: string | null
}

/** The parts of a JSON Schema that are read here. */
export interface PropertySchema {
  readonly type?: string | readonly string[]
  readonly anyOf?: readonly PropertySchema[]
  readonly title?: string
  readonly description?: string
  readonly unit?: string
  readonly columnType?: ColumnType
  readonly minimum?: number
  readonly maximum?: number
  readonly enum?: readonly string[]
  readonly const?: string
  readonly pattern?: string
  readonly items?: PropertySchema
  readonly properties?: Readonly<Record<string, PropertySchema>>
}

/** What a column is called and what it says, beside its Zod type. */
export interface Told {
  readonly title: string
  readonly description: string
  readonly unit?: string
  readonly columnType?: ColumnType
}

/** A column of a table of the dataset: a Zod type and what it tells of itself. */
export function column<T extends z.ZodType>(type: T, told: Told): T {
  return type.meta({ ...told }) as T
}

/** The columns of a table, in the order of its Zod object. */
export function columnsOf(table: z.ZodObject): Column[] {
  const schema = z.toJSONSchema(table, { io: 'input' }) as PropertySchema
  return Object.entries(schema.properties ?? {}).map(([name, property]) =>
    columnFrom(name, property),
  )
}

/** One column out of the JSON Schema of its value. */
export function columnFrom(name: string, property: PropertySchema): Column {
  const alternatives = (property.anyOf ?? [property]).flatMap(oneType)
  const nullable = alternatives.some(({ type }) => type === 'null')
  const value = alternatives.find(({ type }) => type !== 'null') ?? property
  return {
    name,
    type: property.columnType ?? plainType(name, value),
    title: property.title ?? name,
    description: property.description ?? '',
    unit: property.unit ?? null,
    nullable,
    minimum: boundOf(value.minimum, value.type),
    maximum: boundOf(value.maximum, value.type),
    values: value.enum ?? (value.const === undefined ? null : [value.const]),
    pattern: value.pattern ?? null,
  }
}

/** A schema of several types, as one schema for each. */
function oneType(schema: PropertySchema): PropertySchema[] {
  return typeof schema.type === 'object'
    ? schema.type.map((type) => ({ ...schema, type }))
    : [schema]
}

/** Zod gives every integer the bounds of what is exact in a double; they say nothing. */
function boundOf(bound: number | undefined, type: PropertySchema['type']): number | null {
  if (bound === undefined) return null
  return type === 'integer' && Math.abs(bound) === Number.MAX_SAFE_INTEGER ? null : bound
}

function plainType(name: string, { type }: PropertySchema): ColumnType {
  switch (type) {
    case 'string':
    case 'number':
    case 'integer':
    case 'boolean':
      return type
    default:
      throw new Error(`column ${name} has the type ${type}, which no file can hold`)
  }
}

/** The name of a field of the API as a column: heightGainM, height_gain_m. */
export function columnName(field: string): string {
  return field.replace(/[A-Z]/g, (letter) => `_${letter.toLowerCase()}`)
}
