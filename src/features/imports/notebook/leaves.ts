import type { FieldPath, Level, NotebookColumn } from './columns.ts'

/** The parts of a JSON Schema that are read here. */
export interface ObjectSchema {
  readonly type?: string
  readonly format?: string
  readonly description?: string
  readonly enum?: readonly string[]
  readonly const?: string
  readonly properties?: Readonly<Record<string, ObjectSchema>> | undefined
  readonly required?: readonly string[] | undefined
  readonly items?: ObjectSchema
  readonly minItems?: number
  readonly maxItems?: number
  readonly oneOf?: readonly ObjectSchema[]
}

interface Above {
  readonly level: Level
  readonly path: FieldPath
  readonly needed: boolean
  readonly rare: boolean
}

/** Every plain field of an object and of what is in it, as a column. */
export function leavesOf(schema: ObjectSchema, level: Level): NotebookColumn[] {
  return inObject(schema, { level, path: [], needed: true, rare: false })
}

function inObject({ properties = {}, required = [] }: ObjectSchema, above: Above) {
  return Object.entries(properties).flatMap(([field, schema]): NotebookColumn[] => {
    const path = [...above.path, field]
    const needed = above.needed && required.includes(field)
    if (field === 'uncertainty') return uncertaintiesOf(schema, properties, { ...above, path })
    if (schema.type === 'object') return inObject(schema, { ...above, path, needed })
    if (schema.type === 'array') return inList(schema, { ...above, path, needed })
    return [leaf(schema, { ...above, path, needed })]
  })
}

/** As many as the list may hold; those it must hold are common. */
function inList({ items = {}, minItems = 0, maxItems = 0 }: ObjectSchema, above: Above) {
  return Array.from({ length: maxItems }, (_, place) =>
    inObject(items, {
      ...above,
      path: [...above.path, place],
      needed: false,
      rare: above.rare || place >= minItems,
    }),
  ).flat()
}

function uncertaintiesOf(
  { properties = {} }: ObjectSchema,
  measured: Readonly<Record<string, ObjectSchema>>,
  above: Above,
): NotebookColumn[] {
  return Object.keys(properties).map((field) => {
    const { unit } = unitAndText(measured[field]?.description ?? '')
    const path = [...above.path, field]
    const of = columnNameOf([...above.path.slice(0, -1), field])
    return {
      ...leaf({ type: 'number' }, { ...above, path, needed: false, rare: true }),
      unit,
      description: `Standard uncertainty (k = 1) of ${of}, where you know it.`,
    }
  })
}

function leaf(schema: ObjectSchema, { level, path, needed, rare }: Above): NotebookColumn {
  const { unit, text } = unitAndText(schema.description ?? '')
  const values = schema.enum ?? (schema.const === undefined ? null : [schema.const])
  const name = columnNameOf(path)
  return {
    ...{ name, level, path, needed, rare, unit, values, kinds: [] },
    type: typeOf(schema),
    description: text,
  }
}

function typeOf({ type, format }: ObjectSchema): NotebookColumn['type'] {
  if (type === 'number' || type === 'integer') return 'number'
  if (type === 'boolean') return 'boolean'
  return format === 'date' ? 'day' : 'text'
}

/** The path of a field as the name of its column. */
export function columnNameOf(path: FieldPath): string {
  const isStated = path.includes('uncertainty')
  const words = path
    .filter((part) => part !== 'uncertainty')
    .map((part) => (typeof part === 'number' ? String(part + 1) : snakeCase(part)))
  return [...words, ...(isStated ? ['uncertainty'] : [])].join('_')
}

function snakeCase(field: string): string {
  return field.replace(/([a-z0-9])([A-Z])/g, '$1_$2').toLowerCase()
}

/** Descriptions end in their unit: "Height gained [m]". */
function unitAndText(description: string): { unit: string | null; text: string } {
  const match = /\s*\[([^\]]+)\](.*)$/s.exec(description)
  const text = match === null ? description : description.slice(0, match.index) + match[2]
  return { unit: match?.[1] ?? null, text: text.endsWith('.') || text === '' ? text : `${text}.` }
}
