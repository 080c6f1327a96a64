import { useState } from 'preact/hooks'

import type { Schemas } from '../api/client.ts'
import { useSession } from '../api/session.ts'
import { mend } from '../pages/submit/mend.ts'
import { go } from '../router.ts'
import { discard, isOfAnother, type OutboxItem, sendWaiting, useOutbox } from '../store/outbox.ts'
import { Arrived } from './arrived.tsx'
import { Failure } from './notices.tsx'
import { SureButton } from './sure-button.tsx'

/** What waits to be sent, what was refused, and what has arrived. Nothing when there is none of it. */
export function OutboxList() {
  const { items, arrived } = useOutbox()
  if (items.length === 0 && arrived.length === 0) return null
  return (
    <section class="outbox" aria-live="polite">
      {arrived.map((submission) => (
        <Arrived key={`${submission.id} ${submission.revision}`} submission={submission} />
      ))}
      {items.map((item) => (
        <Item key={item.key} item={item} />
      ))}
    </section>
  )
}

function Item({ item }: { readonly item: OutboxItem }) {
  const session = useSession()
  const [error, setError] = useState<Error | null>(null)
  const isRefused = item.state === 'refused'
  const isHidden = isOfAnother(item, session?.email ?? null)
  const mendIt = () =>
    mend(item)
      .then(() => go('/submit'))
      .catch(setError)
  const sendIt = () => {
    setError(null)
    sendWaiting().catch(setError)
  }
  return (
    <div class={isRefused ? 'notice notice-fault' : 'notice'} data-testid="outbox-item">
      {isHidden ? <OfAnother isSignedIn={session !== null} /> : <Own item={item} />}
      {error !== null && <Failure error={error} />}
      <div class="row">
        {!isHidden && isRefused && (
          <button type="button" onClick={() => void mendIt()}>
            Mend it in the form
          </button>
        )}
        {!isHidden && !isRefused && session !== null && (
          <button type="button" onClick={sendIt}>
            Try to send now
          </button>
        )}
        <SureButton
          isQuiet
          label="Throw it away"
          yes="Yes, throw this test away"
          onSure={() => void discard(item.key).catch(setError)}
        />
      </div>
    </div>
  )
}

function Own({ item: { state, body, problem } }: { readonly item: OutboxItem }) {
  const session = useSession()
  const isRefused = state === 'refused'
  return (
    <>
      <p>
        {isRefused ? 'Refused, and kept here' : 'Waiting to be sent'}: {body.site.name},{' '}
        {body.flownOn}.{' '}
        {session === null && !isRefused && <a href="/sign-in?next=/submit">Sign in to send it</a>}
      </p>
      {problem !== null && <Reasons problem={problem} />}
    </>
  )
}

/** Whoever shares a device learns nothing of who wrote it, where they flew or what they measured. */
function OfAnother({ isSignedIn }: { readonly isSignedIn: boolean }) {
  return (
    <p>
      A test waits here that was written in an account.{' '}
      {isSignedIn ? (
        'It is not yours: it is sent when its owner signs in on this device.'
      ) : (
        <a href="/sign-in?next=/submit">Sign in to that account to see and send it</a>
      )}
    </p>
  )
}

function Reasons({ problem }: { readonly problem: Schemas['Problem'] }) {
  const { errors = [], detail, title } = problem
  return (
    <ul>
      {errors.length === 0 && <li>{detail ?? title}</li>}
      {errors.map((error) => (
        <li key={error.pointer + error.detail}>{error.detail}</li>
      ))}
    </ul>
  )
}
