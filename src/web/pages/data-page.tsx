import type { Schemas } from '../api/client.ts'
import { useAnswer } from '../api/use-answer.ts'
import { AnswerState } from '../components/notices.tsx'
import { NotebookColumns } from './notebook-columns.tsx'

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
      {releases.map((release) => (
        <Release key={release.id} release={release} />
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

function Release({ release }: { readonly release: Schemas['Release'] }) {
  const { id, anonymity, setups, createdAt, licence, citation, changes } = release
  const asked = useAnswer('/v1/datasets/{release}', { path: { release: id } })
  const files = asked.got?.body.resources ?? []
  return (
    <section>
      <h2>Release {id}</h2>
      <p>
        {anonymity.runs} runs of {anonymity.sessions} sessions by {anonymity.pilots} pilots,{' '}
        {setups} setups. Made on{' '}
        {new Date(createdAt).toLocaleDateString('en-GB', { dateStyle: 'long' })}. Licence {licence}.
      </p>
      <ul class="list">
        {files.map(({ name, path, hash }) => (
          <li key={path}>
            <a href={`/v1/datasets/${id}/${path}`} download>
              {name} ({path})
            </a>
            <small class="hash">{hash}</small>
          </li>
        ))}
      </ul>
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
      <p class="origin">{citation}</p>
    </section>
  )
}
