import type { Schemas } from '../../api/client.ts'
import { useSession } from '../../api/session.ts'
import { useAnswer } from '../../api/use-answer.ts'
import { AnswerState } from '../../components/notices.tsx'
import { OutboxList } from '../../components/outbox-list.tsx'
import { useOutbox } from '../../store/outbox.ts'
import { Account } from './account.tsx'
import { ApiKeys } from './api-keys.tsx'
import { OwnTest } from './own-test.tsx'

type Full = Schemas['FullSubmission']

/** The newest ones; all of them are in the download. */
const SHOWN = 50

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
    query: { mine: 'true', limit: SHOWN },
    // Asked anew when something has arrived.
    path: { arrived: String(arrived.length) },
  })
  const tests = (asked.got?.body.items ?? []).filter((one): one is Full => one.view === 'full')
  return (
    <section>
      <AnswerState asked={asked} />
      {asked.got !== null && tests.length === 0 && (
        <p>
          Nothing has arrived yet. <a href="/submit">Submit a test</a>: a climb with a stopwatch is
          enough to begin with.
        </p>
      )}
      {tests.map((test) => (
        <OwnTest key={test.id} test={test} onChanged={asked.retry} />
      ))}
      {asked.got?.body.nextCursor != null && (
        <p class="hint">These are the newest {SHOWN}. The download below holds all.</p>
      )}
    </section>
  )
}
