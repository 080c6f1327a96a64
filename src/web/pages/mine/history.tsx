import { useState } from 'preact/hooks'

import type { Schemas } from '../../api/client.ts'
import { useAnswer } from '../../api/use-answer.ts'
import { AnswerState } from '../../components/notices.tsx'
import { useReading } from '../../settings.ts'
import { type Change, changesBetween, written } from './changes.ts'
import { Results } from './results.tsx'

type Full = Schemas['FullSubmission']

/** What stood in a submission before, and what each revision changed. */
export function History({ test }: { readonly test: Full }) {
  const [isOpen, setOpen] = useState(false)
  const asked = useAnswer(
    '/v1/submissions/{id}/revisions',
    isOpen ? { asMe: true, path: { id: test.id }, query: { limit: 50 } } : null,
  )
  const older = (asked.got?.body.items ?? []).filter(({ revision }) => revision < test.revision)
  const all = [test, ...older.toSorted((a, b) => b.revision - a.revision)]
  return (
    <details onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>What stood here before</summary>
      {isOpen && <AnswerState asked={asked} />}
      {asked.got !== null && (
        <ol class="list" reversed>
          {all.map((revision, index) => (
            <Revision key={revision.revision} revision={revision} before={all[index + 1]} />
          ))}
        </ol>
      )}
    </details>
  )
}

function Revision(props: { readonly revision: Full; readonly before: Full | undefined }) {
  const { revision, before } = props
  const when = new Date(revision.revisedAt).toLocaleString('en-GB')
  return (
    <li>
      <h3>
        Revision {revision.revision}, {when}
      </h3>
      {before === undefined ? (
        <p>As it was sent first.</p>
      ) : (
        <Changes changes={changesBetween(before, revision)} />
      )}
      {revision.revision !== revision.currentRevision && (
        <details>
          <summary>Its results</summary>
          <Results test={revision} />
        </details>
      )}
    </li>
  )
}

function Changes({ changes }: { readonly changes: readonly Change[] }) {
  const reading = useReading()
  if (changes.length === 0) return <p>The same readings, worked out anew.</p>
  return (
    <ul>
      {changes.map((change) => (
        <li key={change.place}>
          {change.label}: {written(change, change.before, reading)} →{' '}
          <strong>{written(change, change.after, reading)}</strong>
        </li>
      ))}
    </ul>
  )
}
