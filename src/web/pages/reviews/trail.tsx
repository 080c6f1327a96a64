import { useState } from 'preact/hooks'

import type { Schemas } from '../../api/client.ts'
import { useAnswer } from '../../api/use-answer.ts'
import { FiguresTable } from '../../components/figures-table.tsx'
import { AnswerState } from '../../components/notices.tsx'
import { whenOf } from './review-card.tsx'
import { actionWords, type Decision, decisionWords } from './review-words.ts'

type Review = Schemas['Review']
type Event = Schemas['AuditEvent']

/** Who did what to it, newest first; asked for when it is opened. */
export function Trail({ review }: { readonly review: Review }) {
  const [isOpen, setOpen] = useState(false)
  return (
    <details onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>Audit trail</summary>
      {/* Anew after each decision. */}
      {isOpen && <Trails key={review.decisions.length} review={review} />}
    </details>
  )
}

function Trails({ review: { id, setupId, submissionId } }: { readonly review: Review }) {
  return (
    <>
      <Events label="Of this review" subjectId={id} />
      {setupId !== null && <Events label="Of the setup" subjectId={setupId} />}
      {submissionId !== null && <Events label="Of the test" subjectId={submissionId} />}
    </>
  )
}

function Events({ label, subjectId }: { readonly label: string; readonly subjectId: string }) {
  const asked = useAnswer('/v1/audit-events', { query: { subjectId, limit: 50 }, asMe: true })
  const events = asked.got?.body.items ?? []
  return (
    <>
      <h3>{label}</h3>
      <AnswerState asked={asked} />
      {asked.got !== null && events.length === 0 && <p>Nothing was done to it.</p>}
      {events.length > 0 && (
        <FiguresTable
          label={`Audit trail: ${label.toLowerCase()}`}
          heads={['When', 'What', 'By', 'With']}
          rows={events.map((event) => ({
            key: event.id,
            head: whenOf(event.at),
            cells: [
              actionWords(event.action),
              event.actorId === null ? 'the service' : `account ${event.actorId.slice(0, 8)}`,
              detailOf(event),
            ],
          }))}
        />
      )}
    </>
  )
}

/** What goes with an event, in words where there are some. */
function detailOf({ detail }: Event): string {
  const { decision, state, reason } = detail as {
    readonly decision?: Decision
    readonly state?: 'advisory' | 'doNotFly'
    readonly reason?: string
  }
  const parts = [decision ?? state].flatMap((one) =>
    one === undefined ? [] : [decisionWords(one)],
  )
  return [...parts, ...(reason === undefined ? [] : [reason])].join(': ') || '–'
}
