/**
 * The rules of CSV on the Web that a release's metadata must keep: Metadata Vocabulary for Tabular
 * Data, W3C Recommendation of 17 December 2015, sections 5.1 to 5.11, and the parsing of cells of the
 * Model for Tabular Data of the same day, section 6.4. Written from the recommendation; no validator
 * of it is on npm.
 */

type Json = Readonly<Record<string, unknown>>

/** What an object may hold beside properties with a prefix, such as dc:title (section 5.8). */
const PROPERTIES = {
  group: '@context @id @type dialect notes tableDirection tableSchema tables transformations',
  table: '@id @type dialect notes suppressOutput tableDirection tableSchema transformations url',
  schema: '@id @type columns foreignKeys primaryKey rowTitles',
  column:
    '@id @type name suppressOutput titles virtual aboutUrl datatype default lang null ordered propertyUrl required separator textDirection valueUrl',
  datatype:
    '@id @type base format length maxExclusive maxInclusive maxLength maximum minExclusive minInclusive minLength minimum',
  dialect:
    'commentPrefix delimiter doubleQuote encoding header headerRowCount lineTerminators quoteChar skipBlankRows skipColumns skipInitialSpace skipRows trim',
}

/** Prefixes of the initial context that are used here. */
const PREFIXED = /^(dc|schema):[A-Za-z]+$/

/** The built-in datatypes a release uses (section 5.11.1), and how a cell of each must look. */
const LEXICAL: Readonly<Record<string, RegExp>> = {
  string: /^[\s\S]*$/,
  json: /^[\s\S]*$/,
  double: /^([+-]?(\d+(\.\d*)?|\.\d+)([Ee][+-]?\d+)?|[+-]?INF|NaN)$/,
  integer: /^[+-]?\d+$/,
  boolean: /^(true|false|1|0)$/,
  gYearMonth: /^-?\d{4,}-(0[1-9]|1[0-2])$/,
}
const NUMERIC = ['double', 'integer']
const BOUNDS = [
  'minimum',
  'minInclusive',
  'minExclusive',
  'maximum',
  'maxInclusive',
  'maxExclusive',
]
const LENGTHS = ['length', 'minLength', 'maxLength']

export interface CsvwColumn {
  readonly name: string
  readonly required: boolean
  readonly datatype: {
    readonly base: string
    readonly format?: string
    readonly minimum?: number
    readonly maximum?: number
  }
}

export interface CsvwTable {
  readonly url: string
  readonly dialect: Json
  readonly tableSchema: {
    readonly columns: readonly CsvwColumn[]
    readonly primaryKey?: readonly string[]
    readonly foreignKeys: readonly {
      readonly columnReference: readonly string[]
      readonly reference: { readonly resource: string; readonly columnReference: readonly string[] }
    }[]
  }
}

/** What is against the rules in the metadata, in words. */
export function metadataFaults(group: Json & { readonly tables: readonly CsvwTable[] }): string[] {
  const [context, local] = group['@context'] as [string, Json]
  return [
    ...(context === 'http://www.w3.org/ns/csvw' ? [] : ['@context']),
    ...Object.keys(local).filter((key) => !['@language', '@base'].includes(key)),
    ...unknown(group, 'group'),
    ...(group.tables.length > 0 ? [] : ['no tables']),
    ...group.tables.flatMap((table) =>
      tableFaults(table, group.tables).map((fault) => `${table.url}: ${fault}`),
    ),
  ]
}

function unknown(object: object, kind: keyof typeof PROPERTIES): string[] {
  const known = PROPERTIES[kind].split(' ')
  return Object.keys(object)
    .filter((key) => !known.includes(key) && !(kind !== 'datatype' && PREFIXED.test(key)))
    .map((key) => `${kind} cannot have ${key}`)
}

function tableFaults(table: CsvwTable, all: readonly CsvwTable[]): string[] {
  const { columns, primaryKey = [], foreignKeys } = table.tableSchema
  const names = columns.map(({ name }) => name)
  const missing = (keys: readonly string[], among: readonly string[]) =>
    keys.filter((key) => !among.includes(key)).map((key) => `${key} of a key is no column`)
  return [
    ...unknown(table, 'table'),
    ...unknown(table.dialect, 'dialect'),
    ...unknown(table.tableSchema, 'schema'),
    ...(new Set(names).size === names.length ? [] : ['a name of a column twice']),
    ...columns.flatMap(columnFaults),
    ...missing(primaryKey, names),
    ...foreignKeys.flatMap(({ columnReference, reference }) => [
      ...missing(columnReference, names),
      ...missing(
        reference.columnReference,
        all
          .find(({ url }) => url === reference.resource)
          ?.tableSchema.columns.map(({ name }) => name) ?? [],
      ),
    ]),
  ]
}

function columnFaults(column: CsvwColumn): string[] {
  const { name, datatype } = column
  const has = (properties: readonly string[]) => properties.some((key) => key in datatype)
  const isNumber = NUMERIC.includes(datatype.base)
  return [
    ...unknown(column, 'column'),
    ...unknown(datatype, 'datatype'),
    // A name is a URI template variable and begins with no underscore (section 5.6).
    ...(/^[A-Za-z0-9][A-Za-z0-9_.]*$/.test(name) ? [] : [`name ${name}`]),
    ...(datatype.base in LEXICAL ? [] : [`${name}: no datatype ${datatype.base}`]),
    // Section 5.11.2: bounds are an error unless the base is a number, date, time or duration.
    ...(has(BOUNDS) && !isNumber ? [`${name}: bounds for ${datatype.base}`] : []),
    ...(has(LENGTHS) && datatype.base !== 'string' ? [`${name}: length of ${datatype.base}`] : []),
    // A regular expression is the format of none but strings here.
    ...('format' in datatype && datatype.base !== 'string' ? [`${name}: format`] : []),
    ...((datatype.minimum ?? -Infinity) > (datatype.maximum ?? Infinity)
      ? [`${name}: bounds`]
      : []),
  ]
}

/** What is wrong with a cell, or null; an empty cell is null (section 6.4). */
export function csvwCellFault({ required, datatype }: CsvwColumn, cell: string): string | null {
  const { base, format, minimum = -Infinity, maximum = Infinity } = datatype
  if (cell === '') return required ? 'required' : null
  if (!LEXICAL[base]?.test(cell)) return `${cell} is no ${base}`
  if (format !== undefined && !new RegExp(format).test(cell)) return `${cell} is not ${format}`
  if (base === 'json') JSON.parse(cell)
  const isOutside = NUMERIC.includes(base) && (Number(cell) < minimum || Number(cell) > maximum)
  return isOutside ? `${cell} is not within ${minimum} to ${maximum}` : null
}
