import { useState } from 'preact/hooks'

import { remove, type Schemas } from '../../api/client.ts'
import { Failure } from '../../components/notices.tsx'
import { SetupLink } from '../../components/setup-link.tsx'
import { SureButton } from '../../components/sure-button.tsx'
import { go } from '../../router.ts'
import { askAndForm } from '../submit/ask-form.ts'
import { takeAsDraft } from '../submit/draft.ts'
import { lostBy } from '../submit/given.ts'
import { History } from './history.tsx'
import { Doubts, Results } from './results.tsx'

type Full = Schemas['FullSubmission']

interface Props {
  readonly test: Full
  /** From this device, since the service cannot be reached: nothing can be changed now. */
  readonly isKept: boolean
  readonly onChanged: () => void
}

/** One submission: results, and what its owner can do about it. */
export function OwnTest({ test, isKept, onChanged }: Props) {
  const { site, flownOn, withdrawnAt, setAside, revision, note } = test
  return (
    <section class="entry" aria-label={`${site.name}, ${flownOn}`}>
      <h2>
        {site.name}, {flownOn}
      </h2>
      <p>
        {withdrawnAt !== null
          ? 'Withdrawn: it no longer counts.'
          : setAside
            ? 'Set aside by a moderator: it does not count as it is. Corrected, it counts again.'
            : 'It counts.'}{' '}
        Revision {revision}.
      </p>
      <Touched test={test} />
      <Results test={test} />
      <Doubts test={test} />
      {note !== undefined && <p class="hint">Your note: {note}</p>}
      {withdrawnAt === null && !isKept && <Deeds test={test} onChanged={onChanged} />}
      {revision > 1 && !isKept && <History test={test} />}
    </section>
  )
}

function Deeds({ test, onChanged }: Omit<Props, 'isKept'>) {
  const [error, setError] = useState<Error | null>(null)
  const [lost, setLost] = useState<readonly string[]>([])
  const withdraw = () =>
    remove('/v1/submissions/{id}', { path: { id: test.id } })
      .then(onChanged)
      .catch(setError)
  const correct = async () => {
    setError(null)
    const form = await askAndForm(test)
    const gone = lostBy(form, test)
    setLost(gone)
    if (gone.length > 0) return
    await takeAsDraft(form)
    go('/submit')
  }
  return (
    <>
      {error !== null && <Failure error={error} />}
      {lost.length > 0 && (
        <p class="hint" role="status">
          It was sent with values the form has no field for ({lost.join(', ')}): correct it through
          the <a href="/docs">interface for programs</a>, so that they are kept.
        </p>
      )}
      <div class="row">
        <button type="button" onClick={() => void correct().catch(setError)}>
          Correct it
        </button>
        <SureButton
          label="Withdraw it"
          yes="Yes, withdraw it"
          no="Keep it"
          about="It then counts nowhere, and stays here in your list."
          onSure={() => void withdraw()}
        />
      </div>
    </>
  )
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
