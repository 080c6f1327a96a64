import { useState } from 'preact/hooks'

import { remove, type Schemas } from '../../api/client.ts'
import { useAnswer } from '../../api/use-answer.ts'
import { AnswerState, Failure } from '../../components/notices.tsx'
import { Table } from '../../components/table.tsx'
import { go } from '../../router.ts'
import { useReading } from '../../settings.ts'
import { formOf, withoutField } from '../submit/form-of.ts'
import { RUN_SPECS } from '../submit/run-fields.ts'
import { keep } from '../submit/use-draft.ts'

type Full = Schemas['FullSubmission']

interface Props {
  readonly test: Full
  readonly onChanged: () => void
}

/** One submission: results, and what its owner can do about it. */
export function OwnTest({ test, onChanged }: Props) {
  const [error, setError] = useState<Error | null>(null)
  const [isSure, setSure] = useState(false)
  const isWithdrawn = test.withdrawnAt !== null
  const lost = withoutField(test)
  const withdraw = () =>
    remove('/v1/submissions/{id}', { path: { id: test.id } })
      .then(onChanged)
      .catch(setError)
  const correct = () =>
    formOf(test)
      .then(keep)
      .then(() => go('/submit'))
      .catch(setError)
  return (
    <section class="entry">
      <h2>
        {test.site.name}, {test.flownOn}
      </h2>
      <p>
        {isWithdrawn ? 'Withdrawn: it no longer counts.' : 'It counts.'} Revision {test.revision}.
      </p>
      <Touched test={test} />
      <Results test={test} />
      <Doubts test={test} />
      {error !== null && <Failure error={error} />}
      {!isWithdrawn && lost.length > 0 && (
        <p class="hint">
          It was sent with values the form has no field for ({lost.join(', ')}): correct it through
          the <a href="/docs">interface for programs</a>, so that they are kept.
        </p>
      )}
      {!isWithdrawn && (
        <div class="row">
          {lost.length === 0 && (
            <button type="button" onClick={() => void correct()}>
              Correct it
            </button>
          )}
          {isSure ? (
            <>
              <button type="button" class="primary" onClick={() => void withdraw()}>
                Yes, withdraw it
              </button>
              <button type="button" onClick={() => setSure(false)}>
                Keep it
              </button>
            </>
          ) : (
            <button type="button" onClick={() => setSure(true)}>
              Withdraw it
            </button>
          )}
        </div>
      )}
      {test.revision > 1 && <History id={test.id} />}
    </section>
  )
}

function Results({ test }: { readonly test: Full }) {
  const reading = useReading()
  const write = ({ metric, value, standardUncertainty, unit }: Schemas['Normalized']) => {
    const dimension =
      metric === 'climbRate' ? 'climbRate' : metric === 'fuelFlow' ? 'fuelFlow' : null
    if (dimension === null) {
      return `${value.toFixed(1)} ± ${standardUncertainty.toFixed(1)} ${unit}`
    }
    return `${reading.number(dimension, value)} ± ${reading.number(dimension, standardUncertainty)} ${reading.unit(dimension).sign}`
  }
  return (
    <Table
      label="Results"
      heads={['Run', 'Result ± standard uncertainty', 'Mostly because of', 'Doubts']}
    >
      {test.entries.flatMap((entry, at) =>
        entry.runs.map((run, index) => (
          <tr key={`${at} ${index}`}>
            <th scope="row">
              {RUN_SPECS[run.kind].label}{' '}
              <SetupLink id={entry.setupId} fallback={`setup ${at + 1}`} />
            </th>
            <td>{write(run.normalized)}</td>
            <td>{run.normalized.budget[0]?.source ?? '–'}</td>
            <td>{run.warnings.length}</td>
          </tr>
        )),
      )}
    </Table>
  )
}

/** Named as soon as the name has come. */
function SetupLink({ id, fallback }: { readonly id: string; readonly fallback: string }) {
  const asked = useAnswer('/v1/setups/{id}', { path: { id } })
  return <a href={`/setups/${id}`}>{asked.got?.body.name ?? fallback}</a>
}

/** What was seen speaks against flying it, whatever else the test says. */
function Touched({ test }: { readonly test: Full }) {
  const touched = test.entries.filter(({ runs }) =>
    runs.some((run) => run.kind === 'tipClearance' && run.contactSeen),
  )
  return (
    <>
      {touched.map(({ setupId }) => (
        <p class="warning warning-stop" key={setupId}>
          <strong>Do not fly</strong> <SetupLink id={setupId} fallback="this setup" />: the
          propeller touched or left a trace. Correcting or withdrawing the test does not lift that.
        </p>
      ))}
    </>
  )
}

function Doubts({ test }: { readonly test: Full }) {
  const all = test.entries.flatMap(({ runs }) => runs.flatMap(({ warnings }) => warnings))
  const sentences = [...new Set(all.map(({ detail }) => detail))]
  if (sentences.length === 0) return null
  return (
    <details>
      <summary>What is unusual or was assumed</summary>
      <ul>
        {sentences.map((sentence) => (
          <li key={sentence}>{sentence}</li>
        ))}
      </ul>
    </details>
  )
}

function History({ id }: { readonly id: string }) {
  const [isOpen, setOpen] = useState(false)
  const asked = useAnswer(
    '/v1/submissions/{id}/revisions',
    isOpen ? { asMe: true, path: { id }, query: { limit: 50 } } : null,
  )
  return (
    <details onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>What stood here before</summary>
      {isOpen && <AnswerState asked={asked} />}
      {(asked.got?.body.items ?? []).map((revision) => (
        <div key={revision.revision}>
          <h3>
            Revision {revision.revision}, {new Date(revision.revisedAt).toLocaleString('en-GB')}
          </h3>
          <Results test={revision} />
        </div>
      ))}
    </details>
  )
}
