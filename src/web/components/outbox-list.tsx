import { useState } from 'preact/hooks'

import type { Schemas } from '../api/client.ts'
import { useSession } from '../api/session.ts'
import { mend } from '../pages/submit/mend.ts'
import { go } from '../router.ts'
import { discard, type OutboxItem, sendWaiting, useOutbox } from '../store/outbox.ts'
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
  const { body, problem, state } = item
  const isRefused = state === 'refused'
  const isOthers = item.email !== null && session !== null && session.email !== item.email
  const mendIt = () =>
    mend(item)
      .then(() => go('/submit'))
      .catch(setError)
  return (
    <div class={isRefused ? 'notice notice-fault' : 'notice'} data-testid="outbox-item">
      <p>
        {isRefused ? 'Refused, and kept here' : 'Waiting to be sent'}: {body.site.name},{' '}
        {body.flownOn}. {isOthers && `It belongs to ${item.email}: sign in as that person.`}
        {session === null && !isRefused && (
          <a href="/sign-in?next=/submit">Sign in{item.email && ` as ${item.email}`} to send it</a>
        )}
      </p>
      {problem !== null && <Reasons problem={problem} />}
      {error !== null && <Failure error={error} />}
      <div class="row">
        {isRefused ? (
          <button type="button" onClick={() => void mendIt()}>
            Mend it in the form
          </button>
        ) : (
          session !== null &&
          !isOthers && (
            <button
              type="button"
              onClick={() => {
                setError(null)
                sendWaiting().catch(setError)
              }}
            >
              Try to send now
            </button>
          )
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
