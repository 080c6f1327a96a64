import type { Column, ColumnType } from '../../tables/column.ts'
import type { Tables } from '../../tables/tables.ts'
import { DESCRIPTION, dayOf, LICENCE, type ReleaseFacts, TITLE } from '../facts.ts'

const DATATYPES: Readonly<Record<ColumnType, string>> = {
  string: 'string',
  number: 'double',
  integer: 'integer',
  boolean: 'boolean',
  yearmonth: 'gYearMonth',
  json: 'json',
}

/** Metadata for CSV on the Web (W3C, 2015) of the tables of a release. */
export function csvwMetadata(facts: ReleaseFacts, tables: Tables) {
  return {
    '@context': ['http://www.w3.org/ns/csvw', { '@language': 'en' }],
    'dc:title': `${TITLE}, release ${facts.id}`,
    'dc:description': DESCRIPTION,
    'dc:license': { '@id': LICENCE.path },
    'dc:issued': { '@value': dayOf(facts), '@type': 'date' },
    tables: Object.values(tables.all).map((table) => ({
      url: `${table.name}.csv`,
      'dc:title': table.title,
      'dc:description': table.description,
      dialect: { lineTerminators: ['\r\n'], header: true },
      tableSchema: {
        columns: table.columns.map(columnOf),
        ...(table.primaryKey === null ? {} : { primaryKey: table.primaryKey }),
        foreignKeys: table.foreignKeys.map((key) => ({
          columnReference: key.fields,
          reference: { resource: `${key.table}.csv`, columnReference: key.references },
        })),
      },
    })),
  }
}

function columnOf(column: Column) {
  const { name, title, description, unit, nullable } = column
  return {
    name,
    titles: [name],
    'dc:title': title,
    'dc:description': description,
    ...(unit === null || unit === '1' ? {} : { 'schema:unitText': unit }),
    required: !nullable,
    datatype: datatypeOf(column),
  }
}

/** Words and patterns are what `format` of a string is for; bounds are for numbers only. */
function datatypeOf({ type, minimum, maximum, values, pattern }: Column) {
  const format = type !== 'string' ? null : values === null ? pattern : oneOf(values)
  return {
    base: DATATYPES[type],
    ...(format === null ? {} : { format }),
    ...(minimum === null ? {} : { minimum }),
    ...(maximum === null ? {} : { maximum }),
  }
}

/** A regular expression (ECMA-262) that the whole of each of the words matches, and nothing else. */
function oneOf(words: readonly string[]): string {
  const literal = words.map((word) => word.replace(/[\\^$.*+?()[\]{}|]/g, '\\$&'))
  return `^(?:${literal.join('|')})$`
}
