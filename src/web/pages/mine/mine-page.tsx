import type { Schemas } from '../../api/client.ts'
import { signOut, useSession } from '../../api/session.ts'
import { useAnswer } from '../../api/use-answer.ts'
import { AnswerState } from '../../components/notices.tsx'
import { OutboxList } from '../../components/outbox-list.tsx'
import { useOutbox } from '../../store/outbox.ts'
import { ApiKeys } from './api-keys.tsx'
import { OwnTest } from './own-test.tsx'

type Full = Schemas['FullSubmission']

/** The reader's own tests with their history, what waits on this device, and keys for scripts. */
export function MinePage() {
  const session = useSession()
  return (
    <>
      <h1>My tests</h1>
      <OutboxList />
      {session === null ? (
        <p>
          <a href="/sign-in?next=/mine">Sign in</a> to see what you submitted.
        </p>
      ) : (
        <>
          <OwnTests />
          <ApiKeys />
          <Account email={session.email} />
        </>
      )}
    </>
  )
}

function OwnTests() {
  const { arrived } = useOutbox()
  const asked = useAnswer('/v1/submissions', {
    asMe: true,
    query: { mine: 'true', limit: 50 },
    // Asked anew when something has arrived.
    path: { arrived: String(arrived.length) },
  })
  const tests = (asked.got?.body.items ?? []).filter((one): one is Full => one.view === 'full')
  return (
    <section>
      <AnswerState asked={asked} />
      {asked.got !== null && tests.length === 0 && (
        <p>
          Nothing yet. <a href="/submit">Submit a test</a>
        </p>
      )}
      {tests.map((test) => (
        <OwnTest key={test.id} test={test} onChanged={asked.retry} />
      ))}
    </section>
  )
}

function Account({ email }: { readonly email: string }) {
  return (
    <section>
      <h2>Account</h2>
      <p>Signed in as {email}.</p>
      <button type="button" onClick={() => void signOut()}>
        Sign out
      </button>
    </section>
  )
}
