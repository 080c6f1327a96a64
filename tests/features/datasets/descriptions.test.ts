import { cp, mkdtemp, readFile, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'

import { Ajv } from 'ajv'
import formats from 'ajv-formats'
import frictionless from 'datapackage'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { parse as parseYaml } from 'yaml'
import citationSchema from '../../reference/citation-file-format-1.2.0.json' with { type: 'json' }
import dataCite from '../../reference/datacite-4.5.json' with { type: 'json' }
import { readCsv } from './csv-file.ts'
import { type CsvwTable, csvwCellFault, metadataFaults } from './csvw-rules.ts'
import { type DemoRelease, releaseDemo } from './demo-release.ts'
import { schemaOrgFaults } from './schema-org.ts'

const TABLES = ['runs', 'systematic', 'setups', 'components', 'aggregates', 'effects', 'fit']

let demo: DemoRelease

beforeAll(async () => {
  demo = await releaseDemo()
})
afterAll(() => demo.close())

const text = (name: string) => readFile(join(demo.folder, name), 'utf8')
const json = async (name: string) => JSON.parse(await text(name))

describe('the data package, read by the library of Frictionless', () => {
  const open = async (changes: object = {}, basePath = demo.folder) =>
    frictionless.Package.load({ ...(await json('datapackage.json')), ...changes }, { basePath })

  it('keeps the published profile of a data package, and every resource that of its own', async () => {
    const { valid, errors, resources } = await open()
    expect(errors).toEqual([])
    expect(valid).toBe(true)
    expect(resources.filter(({ tabular }) => tabular).map(({ name }) => name)).toEqual(TABLES)
    expect((await open({ name: 'No Name' })).valid).toBe(false)
  })

  it.each(TABLES)('%s: every cell keeps its schema, and keys lead to rows', async (table) => {
    const { resources } = await open()
    const rows = await resources.find(({ name }) => name === table)!.read({ relations: true })
    expect(rows).toHaveLength((await readCsv(join(demo.folder, `${table}.csv`))).length)
  })

  it.each([
    ['a cell of another type', 'effects', /,[^,]*$/m, ',much'],
    ['a word that is not in the list', 'fit', 'varianceComponent', 'variance'],
    ['a key that leads nowhere', 'runs', /[0-9a-f]{8}-[0-9a-f]{4}-/, '00000000-0000-'],
  ])('%s would be found', async (_, table, from, to) => {
    const folder = await mkdtemp(join(tmpdir(), 'fairclimb-broken-'))
    try {
      await cp(demo.folder, folder, { recursive: true })
      const [head, ...lines] = (await text(`${table}.csv`)).split('\r\n')
      lines[0] = lines[0]!.replace(from, to)
      await writeFile(join(folder, `${table}.csv`), [head, ...lines].join('\r\n'))
      const { resources } = await open({}, folder)
      const broken = resources.find(({ name }) => name === table)!
      await expect(broken.read({ relations: true })).rejects.toThrow()
    } finally {
      await rm(folder, { recursive: true })
    }
  })

  it('says of every file the checksum that SHA256SUMS has', async () => {
    const sums = await text('SHA256SUMS')
    const { resources } = await json('datapackage.json')
    expect(resources).toHaveLength(2 * TABLES.length)
    for (const { path, hash } of resources) {
      expect(sums).toContain(`${hash.replace('sha256:', '')}  ${path}\n`)
    }
  })
})

describe('CITATION.cff', () => {
  it('keeps the schema of the Citation File Format 1.2.0, read as YAML', async () => {
    const ajv = new Ajv({ allErrors: true })
    formats.default(ajv)
    const check = ajv.compile(citationSchema)
    const citation = parseYaml(await text('CITATION.cff'), { schema: 'core' })
    check(citation)
    expect(check.errors).toBe(null)
    expect(citation).toMatchObject({ type: 'dataset', version: demo.releaseId })
    expect(check({ ...citation, year: 2026 })).toBe(false)
    expect(check({ ...citation, 'date-released': '17 May 2026' })).toBe(false)
  })
})

describe('datacite.json', () => {
  it('has what DataCite asks for, in the words of its lists', async () => {
    const record = await json('datacite.json')
    expect(record.schemaVersion).toBe('http://datacite.org/schema/kernel-4')
    expect(Object.keys(record)).toEqual(expect.arrayContaining(dataCite.mandatory))
    expect(dataCite.properties).toEqual(expect.arrayContaining(Object.keys(record)))
    expect(dataCite.nameType).toContain(record.creators[0].nameType)
    expect(dataCite.resourceTypeGeneral).toContain(record.types.resourceTypeGeneral)
    for (const { dateType } of record.dates) expect(dataCite.dateType).toContain(dateType)
    for (const { descriptionType } of record.descriptions) {
      expect(dataCite.descriptionType).toContain(descriptionType)
    }
  })
})

describe('the JSON-LD of a release', () => {
  it('uses the vocabulary of schema.org, as a file and in the page', async () => {
    const dataset = await json('dataset.jsonld')
    const page = /<script type="application\/ld\+json">(.*?)<\/script>/s.exec(
      await text('index.html'),
    )
    expect(JSON.parse(page![1]!)).toEqual(dataset)
    const misspelt = { ...dataset, licence: dataset.license }
    const [faults, faultsOfMisspelt] = schemaOrgFaults([dataset, misspelt])
    expect(faults).toEqual([])
    expect(faultsOfMisspelt!.join()).toContain('licence')
  })

  it('names every table as a download, with its checksum, and how to cite it', async () => {
    const { distribution, description, citation } = await json('dataset.jsonld')
    const sums = await text('SHA256SUMS')
    expect(distribution).toHaveLength(2 * TABLES.length)
    for (const { contentUrl, sha256 } of distribution) {
      expect(sums).toContain(`${sha256}  ${contentUrl}\n`)
    }
    expect(citation).toContain(demo.releaseId)
    // What search engines for data ask of a description: 50 to 5000 signs.
    expect(description.length).toBeGreaterThan(50)
  })
})

describe('metadata for CSV on the Web', () => {
  it('keeps the rules of the recommendation', async () => {
    const metadata = await json('csv-metadata.json')
    expect(metadataFaults(metadata)).toEqual([])
    const urls = metadata.tables.map(({ url }: CsvwTable) => url)
    expect(urls).toEqual(TABLES.map((table) => `${table}.csv`))
  })

  it('is kept by every cell of every table', async () => {
    const { tables } = (await json('csv-metadata.json')) as { tables: CsvwTable[] }
    for (const { url, tableSchema } of tables) {
      const rows = await readCsv(join(demo.folder, url))
      expect(tableSchema.columns.map(({ name }) => name)).toEqual(Object.keys(rows[0]!))
      const faults = rows.flatMap((row, index) =>
        tableSchema.columns.flatMap((column) => {
          const fault = csvwCellFault(column, row[column.name]!)
          return fault === null ? [] : [`${url} row ${index + 1}, ${column.name}: ${fault}`]
        }),
      )
      expect(faults).toEqual([])
    }
  })

  it('says every list of words and every bound that the data package says', async () => {
    const { tables } = (await json('csv-metadata.json')) as { tables: CsvwTable[] }
    const { resources } = await json('datapackage.json')
    for (const { url, tableSchema } of tables) {
      const { schema } = resources.find(({ path }: { path: string }) => path === url)
      for (const [index, { name, datatype }] of tableSchema.columns.entries()) {
        const { constraints } = schema.fields[index]
        const { minimum, maximum, enum: words = [] } = constraints
        expect([name, datatype.minimum, datatype.maximum]).toEqual([name, minimum, maximum])
        const column = { name, required: false, datatype }
        for (const word of words) {
          expect(csvwCellFault(column, word)).toBe(null)
          expect(csvwCellFault(column, `${word}x`)).not.toBe(null)
        }
      }
    }
  })
})
