import type { Schemas } from '../api/client.ts'
import { useSession } from '../api/session.ts'
import { discard, type OutboxItem, sendWaiting, useOutbox } from '../store/outbox.ts'

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

function Arrived({ submission }: { readonly submission: Schemas['FullSubmission'] }) {
  const runs = submission.entries.reduce((sum, entry) => sum + entry.runs.length, 0)
  return (
    <p class="notice" data-testid="arrived">
      Your test at {submission.site.name} has arrived: {runs} run{runs === 1 ? '' : 's'}.{' '}
      <a href="/mine">My tests</a>
    </p>
  )
}

function Item({ item }: { readonly item: OutboxItem }) {
  const session = useSession()
  const { body, problem, state } = item
  const isOthers = item.email !== null && session !== null && session.email !== item.email
  return (
    <div class={state === 'refused' ? 'notice notice-fault' : 'notice'} data-testid="outbox-item">
      <p>
        {state === 'refused' ? 'Refused' : 'Waiting to be sent'}: {body.site.name}, {body.flownOn}.{' '}
        {isOthers && `It belongs to ${item.email}.`}
        {session === null && state === 'waiting' && (
          <a href="/sign-in?next=/submit">Sign in to send it</a>
        )}
      </p>
      {problem !== null && (
        <ul>
          {(problem.errors ?? [{ pointer: '', detail: problem.detail ?? problem.title }]).map(
            ({ pointer, detail }) => (
              <li key={pointer}>{detail}</li>
            ),
          )}
        </ul>
      )}
      <div class="row">
        {state === 'waiting' && (
          <button type="button" onClick={() => void sendWaiting()}>
            Try to send now
          </button>
        )}
        <button type="button" class="quiet" onClick={() => void discard(item.key)}>
          Throw it away
        </button>
      </div>
    </div>
  )
}
