import { useSession } from '../../api/session.ts'
import { OutboxList } from '../../components/outbox-list.tsx'
import { Account } from './account.tsx'
import { ApiKeys } from './api-keys.tsx'
import { OwnTests } from './own-tests.tsx'

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
          <OwnTests key={session.email} email={session.email} />
          <ApiKeys key={`keys ${session.email}`} />
          <Account email={session.email} />
        </>
      )}
    </>
  )
}
