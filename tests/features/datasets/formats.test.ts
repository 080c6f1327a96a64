import { readFile } from 'node:fs/promises'
import { join } from 'node:path'

import { DuckDBInstance } from '@duckdb/node-api'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'

import { readCsv } from './csv-file.ts'
import { type DemoRelease, releaseDemo } from './demo-release.ts'

const TABLES = ['runs', 'systematic', 'setups', 'components', 'aggregates', 'effects', 'fit']

interface PackageResource {
  readonly path: string
  readonly schema?: {
    readonly fields: readonly {
      readonly name: string
      readonly title: string
      readonly description: string
      readonly constraints: { readonly required: boolean }
    }[]
  }
}

let demo: DemoRelease
let duck: Awaited<ReturnType<DuckDBInstance['connect']>>

beforeAll(async () => {
  demo = await releaseDemo()
  duck = await (await DuckDBInstance.create()).connect()
})
afterAll(() => demo.close())

async function ask(sql: string): Promise<unknown[][]> {
  return (await duck.runAndReadAll(sql)).getRows() as unknown[][]
}

const path = (name: string) => join(demo.folder, name)

describe('the Parquet files, read by DuckDB', () => {
  it.each(TABLES)('%s agrees with its CSV in every cell', async (table) => {
    const parquet = `read_parquet('${path(`${table}.parquet`)}')`
    const described = await ask(`DESCRIBE SELECT * FROM ${parquet}`)
    const types = described.map(([name, type]) => `'${name}': '${type}'`)
    const csv = `read_csv('${path(`${table}.csv`)}', header = true, strict_mode = true, delim = ',',
      quote = '"', escape = '"', nullstr = '', columns = {${types.join(', ')}})`
    const [[rows]] = (await ask(`SELECT count(*) FROM ${parquet}`)) as [[bigint]]
    const lines = await readCsv(path(`${table}.csv`))
    expect(Number(rows)).toBe(lines.length)
    expect(lines.length).toBeGreaterThan(0)
    expect(Object.keys(lines[0]!)).toEqual(described.map(([name]) => name))
    expect(await ask(`SELECT * FROM ${parquet} EXCEPT ALL SELECT * FROM ${csv}`)).toEqual([])
    expect(await ask(`SELECT * FROM ${csv} EXCEPT ALL SELECT * FROM ${parquet}`)).toEqual([])
  })

  it('has typed columns with statistics', async () => {
    const columns = await ask(`SELECT path_in_schema, type, stats_min_value, stats_max_value
      FROM parquet_metadata('${path('runs.parquet')}') WHERE path_in_schema IN ('log_value', 'kind')`)
    const [kind, logValue] = columns.sort(([a], [b]) => (String(a) < String(b) ? -1 : 1))
    expect(kind?.slice(0, 2)).toEqual(['kind', 'BYTE_ARRAY'])
    expect(logValue?.slice(0, 2)).toEqual(['log_value', 'DOUBLE'])
    const values = (await readCsv(path('runs.csv'))).map(({ log_value }) => Number(log_value))
    expect(Number(logValue?.[2])).toBe(Math.min(...values))
    expect(Number(logValue?.[3])).toBe(Math.max(...values))
  })
})

describe('the data package', () => {
  it('says a title, a meaning and whether it may be empty of every column', async () => {
    const descriptor = JSON.parse(await readFile(path('datapackage.json'), 'utf8'))
    for (const { schema } of descriptor.resources as PackageResource[]) {
      for (const field of schema?.fields ?? []) {
        expect(field.title, field.name).not.toBe('')
        expect(field.description, field.name).toMatch(/\.$/)
        expect(typeof field.constraints.required).toBe('boolean')
      }
    }
  })

  it('reads at the address of the release with paths that lead to its files', async () => {
    const address = `/v1/datasets/${demo.releaseId}`
    const { body } = await demo.request.get(address).expect(200)
    for (const { path: file } of body.resources as PackageResource[]) {
      const { pathname } = new URL(file, `http://here${address}`)
      await demo.request.head(pathname).expect(200)
    }
  })
})

describe('the CSV files', () => {
  it('are RFC 4180: CR LF after every line, no byte order mark, as many cells as columns', async () => {
    for (const table of TABLES) {
      const text = await readFile(path(`${table}.csv`), 'utf8')
      expect(text.startsWith('\uFEFF')).toBe(false)
      expect(text.endsWith('\r\n')).toBe(true)
      expect(text.replaceAll('\r\n', '').includes('\n')).toBe(false)
    }
  })
})
