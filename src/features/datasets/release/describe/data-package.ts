import type { StoredFile } from '../../files/store.ts'
import type { Column } from '../../tables/column.ts'
import type { ForeignKey, Table, Tables } from '../../tables/tables.ts'
import { DESCRIPTION, KEYWORDS, LICENCE, type ReleaseFacts, TITLE } from '../facts.ts'

type Json = Readonly<Record<string, unknown>>

/** The Frictionless data package (v1) of a release: every table with every column, out of the Zod schemas. */
export function dataPackage(
  facts: ReleaseFacts,
  tables: Tables,
  files: readonly StoredFile[],
): Json {
  const resources = Object.values(tables.all).flatMap((table) =>
    files
      .filter(({ name }) => name === `${table.name}.csv` || name === `${table.name}.parquet`)
      .map((file) => resourceOf(table, file)),
  )
  return {
    profile: resources.every(({ profile }) => profile === 'tabular-data-resource')
      ? 'tabular-data-package'
      : 'data-package',
    name: 'fairclimb',
    id: facts.id,
    title: `${TITLE}, release ${facts.id}`,
    description: DESCRIPTION,
    version: String(facts.number),
    created: facts.snapshotAt.toISOString(),
    keywords: KEYWORDS,
    licenses: [LICENCE],
    contributors: [{ title: 'Fairclimb contributors', role: 'author' }],
    resources,
    methodVersion: facts.methodVersion,
    modelVersion: facts.modelVersion,
    anonymity: facts.anonymity,
  }
}

function resourceOf(table: Table, { name, mediaType, sizeBytes, sha256 }: StoredFile): Json {
  const head = {
    title: table.title,
    description: table.description,
    path: name,
    mediatype: mediaType.split(';')[0],
    bytes: sizeBytes,
    hash: `sha256:${sha256}`,
  }
  if (!name.endsWith('.csv')) {
    return { name: `${table.name}-parquet`, ...head, profile: 'data-resource', format: 'parquet' }
  }
  return {
    name: table.name,
    ...head,
    profile: 'tabular-data-resource',
    format: 'csv',
    encoding: 'utf-8',
    dialect: {
      delimiter: ',',
      lineTerminator: '\r\n',
      quoteChar: '"',
      doubleQuote: true,
      header: true,
    },
    schema: schemaOf(table),
  }
}

function schemaOf(table: Table): Json {
  return {
    fields: table.columns.map(fieldOf),
    missingValues: [''],
    ...(table.primaryKey === null ? {} : { primaryKey: table.primaryKey }),
    ...(table.foreignKeys.length === 0 ? {} : { foreignKeys: table.foreignKeys.map(foreignKeyOf) }),
  }
}

function foreignKeyOf({ fields, table: resource, references }: ForeignKey): Json {
  return { fields, reference: { resource, fields: references } }
}

/** One column as a Frictionless field. */
function fieldOf(column: Column): Json {
  const { name, type, title, description, unit, nullable, minimum, maximum, values, pattern } =
    column
  const isText = type === 'string'
  return {
    name,
    type: type === 'json' ? 'array' : type,
    title,
    description,
    ...(unit === null ? {} : { unit }),
    constraints: {
      required: !nullable,
      ...(minimum === null ? {} : { minimum }),
      ...(maximum === null ? {} : { maximum }),
      ...(values === null ? {} : { enum: values }),
      ...(pattern === null || !isText ? {} : { pattern }),
    },
  }
}
