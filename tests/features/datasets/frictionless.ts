/**
 * The rules of the Frictionless specifications version 1 (specs.frictionlessdata.io: Data Package,
 * Data Resource, Tabular Data Resource, Table Schema), as far as a release uses them; written out
 * here from memory of the published JSON Schemas, since no package on npm checks them.
 */

interface Field {
  readonly name: string
  readonly type: string
  readonly title: string
  readonly description: string
  readonly constraints: {
    readonly required: boolean
    readonly minimum?: number
    readonly maximum?: number
    readonly enum?: readonly string[]
    readonly pattern?: string
  }
}

export interface TableResource {
  readonly name: string
  readonly path: string
  readonly profile: string
  readonly schema?: {
    readonly fields: readonly Field[]
    readonly primaryKey?: readonly string[]
    readonly foreignKeys?: readonly {
      readonly fields: readonly string[]
      readonly reference: { readonly resource: string; readonly fields: readonly string[] }
    }[]
  }
}

type Json = Record<string, unknown>

const NAME = /^([-a-z0-9._/])+$/
const TYPES = ['string', 'number', 'integer', 'boolean', 'yearmonth', 'array']
/** What a type may be constrained by, from the table in Table Schema. */
const CONSTRAINTS: Readonly<Record<string, readonly string[]>> = {
  string: ['required', 'unique', 'enum', 'pattern', 'minLength', 'maxLength'],
  number: ['required', 'unique', 'enum', 'minimum', 'maximum'],
  integer: ['required', 'unique', 'enum', 'minimum', 'maximum'],
  boolean: ['required', 'unique', 'enum'],
  yearmonth: ['required', 'unique', 'enum', 'minimum', 'maximum'],
  array: ['required', 'unique', 'enum', 'minLength', 'maxLength'],
}

/** What is against the rules in a data package, in words. */
export function packageFaults(descriptor: Json): string[] {
  const resources = descriptor.resources as Json[]
  const licences = descriptor.licenses as Json[]
  return [
    ...(NAME.test(String(descriptor.name)) ? [] : ['name of the package']),
    ...(Number.isNaN(Date.parse(String(descriptor.created))) ? ['created'] : []),
    ...licences
      .filter(({ name, path }) => !name && !path)
      .map(() => 'a licence without name and path'),
    ...(resources.length > 0 ? [] : ['no resource']),
    ...(new Set(resources.map(({ name }) => name)).size === resources.length ? [] : ['name twice']),
    ...resources.flatMap(resourceFaults),
  ]
}

function resourceFaults(resource: Json): string[] {
  const { name, path, bytes, hash, profile } = resource
  const schema = resource.schema as TableResource['schema']
  const at = (fault: string) => `${name}: ${fault}`
  return [
    ...(NAME.test(String(name)) ? [] : [at('name')]),
    ...(/^(?!\/|\.\.)[^\\:]+$/.test(String(path)) ? [] : [at('path must be relative and inside')]),
    ...(Number.isInteger(bytes) ? [] : [at('bytes')]),
    ...(/^sha256:[0-9a-f]{64}$/.test(String(hash)) ? [] : [at('hash')]),
    ...(profile === 'tabular-data-resource' && schema === undefined ? [at('no schema')] : []),
    ...(schema?.fields ?? []).flatMap(fieldFaults).map(at),
    ...keyFaults(schema).map(at),
  ]
}

function fieldFaults({ name, type, constraints }: Field): string[] {
  const allowed = CONSTRAINTS[type] ?? []
  return [
    ...(TYPES.includes(type) ? [] : [`${name} has the type ${type}`]),
    ...Object.keys(constraints)
      .filter((constraint) => !allowed.includes(constraint))
      .map((constraint) => `${name} of type ${type} cannot be constrained by ${constraint}`),
  ]
}

function keyFaults(schema: TableResource['schema']): string[] {
  const names = new Set(schema?.fields.map(({ name }) => name))
  const used = [
    ...(schema?.primaryKey ?? []),
    ...(schema?.foreignKeys ?? []).flatMap(({ fields }) => fields),
  ]
  return used.filter((name) => !names.has(name)).map((name) => `${name} of a key is no field`)
}

/** What is wrong with a cell, or null. An empty cell is a missing value. */
export function cellFault({ type, constraints }: Field, cell: string): string | null {
  if (cell === '') return constraints.required ? 'required' : null
  const number = Number(cell)
  if (['number', 'integer'].includes(type)) {
    if (!Number.isFinite(number)) return `${cell} is no number`
    if (type === 'integer' && !Number.isInteger(number)) return `${cell} is no integer`
    if (number < (constraints.minimum ?? -Infinity)) return `${cell} is too small`
    if (number > (constraints.maximum ?? Infinity)) return `${cell} is too large`
  }
  if (type === 'boolean' && !['true', 'false'].includes(cell)) return `${cell} is no boolean`
  if (type === 'yearmonth' && !/^\d{4}-(0[1-9]|1[0-2])$/.test(cell)) return `${cell} is no month`
  if (type === 'array' && !Array.isArray(JSON.parse(cell))) return `${cell} is no array`
  if (constraints.enum !== undefined && !constraints.enum.includes(cell))
    return `${cell} not in enum`
  const { pattern } = constraints
  return pattern !== undefined && !new RegExp(`^(?:${pattern})$`).test(cell)
    ? `${cell} does not match`
    : null
}
