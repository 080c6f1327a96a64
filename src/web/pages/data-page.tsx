import { useState } from 'preact/hooks'

import type { Schemas } from '../api/client.ts'
import { useAnswer } from '../api/use-answer.ts'
import { FiguresTable } from '../components/figures-table.tsx'
import { AnswerState } from '../components/notices.tsx'
import { NotebookColumns } from './notebook-columns.tsx'

/** A table of a release, as its data package describes it. */
interface Resource {
  readonly name: string
  readonly path: string
  readonly title: string
  readonly description: string
  readonly format: string
  readonly bytes: number
}

interface ReleaseProps {
  readonly release: Schemas['Release']
  readonly isLatest: boolean
}

/** Releases of the evidence, to be taken away and checked. */
export function DataPage() {
  const asked = useAnswer('/v1/datasets', { query: { limit: 20 } })
  const releases = asked.got?.body.items ?? []
  return (
    <>
      <h1>Data</h1>
      <p>
        Every release holds the results of all runs and of all setups as tables, what each column
        means, checksums, the licence, and a script that computes its ranking again. Releases never
        change. Persons cannot be recognised in them.
      </p>
      <AnswerState asked={asked} />
      {asked.got !== null && releases.length === 0 && (
        <p>
          There is no release yet. The calls to read everything that is public are open meanwhile.
        </p>
      )}
      {releases.map((release, index) => (
        <Release key={release.id} release={release} isLatest={index === 0} />
      ))}
      <NotebookColumns />
      <h2>For programs</h2>
      <p>
        <a href="/docs">Every call of the interface</a>, readable without an account ·{' '}
        <a href="/openapi.json">its description for programs</a>
      </p>
    </>
  )
}

function Release({ release, isLatest }: ReleaseProps) {
  const { id, anonymity, setups, createdAt, licence, citation, changes } = release
  const [isOpen, setOpen] = useState(isLatest)
  return (
    <section>
      <h2>Release {id}</h2>
      <p>
        {anonymity.runs} runs of {anonymity.sessions} sessions by {anonymity.pilots} pilots,{' '}
        {setups} setups. Made on{' '}
        {new Date(createdAt).toLocaleDateString('en-GB', { dateStyle: 'long' })}. Licence {licence}.
      </p>
      <details open={isOpen} onToggle={(event) => setOpen(event.currentTarget.open)}>
        <summary>Files</summary>
        {isOpen && <Files id={id} />}
      </details>
      {changes.length > 0 && (
        <details>
          <summary>Since the release before</summary>
          <ul>
            {changes.map((change) => (
              <li key={change}>{change}</li>
            ))}
          </ul>
        </details>
      )}
      <p class="origin">Cite as: {citation}</p>
    </section>
  )
}

/** Files beside the tables, which every release has. */
const BESIDE = [
  ['README.md', 'What is in it, and what each column means'],
  ['reproduce.R', 'Fits the model again and writes the ranking'],
  ['SHA256SUMS', 'Checksums of all files'],
  ['CITATION.cff', 'How to cite it, for programs'],
  ['datapackage.json', 'All of this for programs'],
] as const

function Files({ id }: { readonly id: string }) {
  const asked = useAnswer('/v1/datasets/{release}', { path: { release: id } })
  const files = (asked.got?.body.resources ?? []) as unknown as readonly Resource[]
  const tables = files.filter(({ format }) => format === 'csv')
  return (
    <>
      <AnswerState asked={asked} />
      {files.length > 0 && (
        <>
          <FiguresTable
            label={`Tables of release ${id}`}
            heads={['Table', 'Comma-separated', 'Parquet']}
            rows={tables.map((table) => ({
              key: table.name,
              head: (
                <>
                  {table.title} <span class="reason">{table.description}</span>
                </>
              ),
              cells: [
                <Download key="csv" id={id} file={table} />,
                <Download
                  key="parquet"
                  id={id}
                  file={files.find(({ name }) => name === `${table.name}-parquet`)}
                />,
              ],
            }))}
          />
          <ul class="list">
            {BESIDE.map(([name, about]) => (
              <li key={name}>
                <a href={`/v1/datasets/${id}/${name}`} download>
                  {name}
                </a>{' '}
                <span class="reason">{about}</span>
              </li>
            ))}
          </ul>
        </>
      )}
    </>
  )
}

function Download({ id, file }: { readonly id: string; readonly file: Resource | undefined }) {
  if (file === undefined) return <>–</>
  // Paths in a data package are relative to its own address.
  const { pathname } = new URL(file.path, new URL(`/v1/datasets/${id}`, location.href))
  return (
    <>
      <a href={pathname} download>
        {file.path.split('/').at(-1)}
      </a>{' '}
      <small>{sizeOf(file.bytes)}</small>
    </>
  )
}

function sizeOf(bytes: number): string {
  if (bytes < 10_000) return `${(bytes / 1000).toFixed(1)} kB`
  return bytes < 1_000_000
    ? `${Math.round(bytes / 1000)} kB`
    : `${(bytes / 1_000_000).toFixed(1)} MB`
}
