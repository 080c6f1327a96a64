import { useState } from 'preact/hooks'

import type { Schemas } from '../../api/client.ts'
import { useAnswer } from '../../api/use-answer.ts'
import { SafetyMark } from '../../components/setup-name.tsx'
import { DecisionForm } from './decision-form.tsx'
import { OddSession } from './odd-session.tsx'
import { decisionWords, ORIGIN_WORDS, titleOf } from './review-words.ts'
import { Trail } from './trail.tsx'

type Review = Schemas['Review']

/** One thing to decide on: what it is about, what is odd, what holds, and the decision. */
export function ReviewCard({ review: asListed }: { readonly review: Review }) {
  const [review, setReview] = useState(asListed)
  const { id, createdAt, origin, submissionId } = review
  return (
    <article class="review" aria-labelledby={`review-${id}`}>
      <h2 id={`review-${id}`}>{titleOf(review)}</h2>
      <p class="hint">
        Brought up {whenOf(createdAt)} {ORIGIN_WORDS[origin]}.{' '}
        <a href={`/reviews/${id}`}>Link to this one</a>
      </p>
      <Subject review={review} />
      {submissionId === null ? (
        <blockquote>{review.text}</blockquote>
      ) : (
        <OddSession submissionId={submissionId} review={review} />
      )}
      <Findings review={review} />
      <Decisions review={review} />
      <DecisionForm key={review.decisions.length} review={review} onDecided={setReview} />
      <Trail review={review} />
    </article>
  )
}

function Subject({ review: { setupId, componentId } }: { readonly review: Review }) {
  return (
    <ul class="list">
      {setupId !== null && <SetupLine id={setupId} />}
      {componentId !== null && <ComponentLine id={componentId} />}
    </ul>
  )
}

/** The setup with the state it is in now. */
function SetupLine({ id }: { readonly id: string }) {
  const asked = useAnswer('/v1/setups/{id}', { path: { id } })
  const setup = asked.got?.body
  return (
    <li>
      Setup: <a href={`/setups/${id}`}>{setup?.name ?? id}</a>
      <SafetyMark state={setup?.safety.state ?? 'none'} />
    </li>
  )
}

function ComponentLine({ id }: { readonly id: string }) {
  const asked = useAnswer('/v1/components/{id}', { path: { id } })
  const part = asked.got?.body
  return (
    <li>
      Component:{' '}
      <a href={`/components/${id}`}>{part === undefined ? id : `${part.maker} ${part.model}`}</a>
    </li>
  )
}

/** What came of it for the safety of setups. */
function Findings({ review: { findings, setAside } }: { readonly review: Review }) {
  if (findings.length === 0 && !setAside) return null
  return (
    <>
      <h3>What holds</h3>
      <ul>
        {setAside && <li>The session is set aside: it does not count.</li>}
        {findings.map(({ id, state, reason, liftedAt, liftedReason }) => (
          <li key={id}>
            <SafetyMark state={state} /> {reason}{' '}
            {liftedAt === null ? (
              <strong>In force.</strong>
            ) : (
              `Lifted ${whenOf(liftedAt)}: ${liftedReason ?? ''}`
            )}
          </li>
        ))}
      </ul>
    </>
  )
}

function Decisions({ review: { decisions } }: { readonly review: Review }) {
  return (
    <div role="status">
      {decisions.length > 0 && <h3>Decided</h3>}
      <ul>
        {decisions.map(({ at, decision, reason }) => (
          <li key={at}>
            <strong>{decisionWords(decision)}</strong>, {whenOf(at)}: {reason}
          </li>
        ))}
      </ul>
    </div>
  )
}

/** A moment in words. */
export function whenOf(time: string): string {
  return new Date(time).toLocaleString('en-GB', { dateStyle: 'medium', timeStyle: 'short' })
}
