import type { PoolClient } from 'pg'

import { FileStore, type StoredFile } from '../files/store.ts'
import type { Tables } from '../tables/tables.ts'
import { citationFile, dataCite, jsonLd } from './describe/citation.ts'
import { csvwMetadata } from './describe/csvw.ts'
import { dataPackage } from './describe/data-package.ts'
import { landingPage } from './describe/page.ts'
import { changelog, readme } from './describe/readme.ts'
import type { ReleaseFacts } from './facts.ts'
import { REPRODUCE_SCRIPT } from './reproduce-script.ts'

const MARKDOWN = 'text/markdown; charset=utf-8'
const TEXT = 'text/plain; charset=utf-8'
const json = (value: unknown) => `${JSON.stringify(value, null, 2)}\n`

/** What describes the files of a release, and the script that reproduces it; the checksums come last. */
export async function storeDocuments(
  client: PoolClient,
  facts: ReleaseFacts,
  tables: Tables,
  data: readonly StoredFile[],
): Promise<StoredFile[]> {
  const documents: readonly (readonly [name: string, mediaType: string, text: string])[] = [
    ['datapackage.json', 'application/json', json(dataPackage(facts, tables, data))],
    ['csv-metadata.json', 'application/csvm+json', json(csvwMetadata(facts, tables))],
    ['README.md', MARKDOWN, readme(facts, tables)],
    ['CHANGELOG.md', MARKDOWN, changelog(facts)],
    ['reproduce.R', TEXT, REPRODUCE_SCRIPT],
    ['CITATION.cff', 'text/yaml; charset=utf-8', citationFile(facts)],
    ['datacite.json', 'application/vnd.datacite.datacite+json', json(dataCite(facts))],
    ['dataset.jsonld', 'application/ld+json', json(jsonLd(facts, data))],
    ['index.html', 'text/html; charset=utf-8', landingPage(facts, data)],
  ]
  const stored: StoredFile[] = []
  const put = async (name: string, mediaType: string, text: string) => {
    const file = new FileStore(client, { name, mediaType })
    await file.add(Buffer.from(text))
    stored.push(await file.end())
  }
  for (const [name, mediaType, text] of documents) await put(name, mediaType, text)
  await put('SHA256SUMS', TEXT, checksums([...data, ...stored]))
  return stored
}

/** As `sha256sum --check` reads them. */
function checksums(files: readonly StoredFile[]): string {
  return files.map(({ name, sha256 }) => `${sha256}  ${name}\n`).join('')
}
