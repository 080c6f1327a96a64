import { useState } from 'preact/hooks'

import { type Answer, get, type Schemas } from '../../api/client.ts'
import { isModerator } from '../../api/role.ts'
import { useSession } from '../../api/session.ts'
import { useAnswer } from '../../api/use-answer.ts'
import { RadioRow } from '../../components/fields.tsx'
import { AnswerState, Failure } from '../../components/notices.tsx'
import { go, usePlace } from '../../router.ts'
import { ReviewCard } from './review-card.tsx'

type Review = Schemas['Review']
type State = 'waiting' | 'inForce' | 'closed'

const STATES: readonly (readonly [State, string])[] = [
  ['waiting', 'Waiting'],
  ['inForce', 'In force'],
  ['closed', 'Closed'],
]

const EMPTY: Readonly<Record<State, string>> = {
  waiting: 'Nothing waits for a decision.',
  inForce: 'No advisory is in force, and no session is set aside.',
  closed: 'Nothing has been decided and closed yet.',
}

const AT_ONCE = 20

/** What moderators look at: reports and odd sessions, each with its decision and its trail. */
export function ReviewsPage({ id }: { readonly id: string }) {
  const session = useSession()
  return (
    <>
      <h1>Reviews</h1>
      {session === null && (
        <p>
          <a href={`/sign-in?next=${location.pathname}`}>Sign in</a> as a moderator: what is told to
          moderators is read by them only.
        </p>
      )}
      {session !== null && !isModerator(session) && (
        <p>
          This page is for moderators. Whether something you reported holds stands on the page of
          the <a href="/setups">setup</a>.
        </p>
      )}
      {session !== null && isModerator(session) && (id === '' ? <Queue /> : <One id={id} />)}
    </>
  )
}

function One({ id }: { readonly id: string }) {
  const asked = useAnswer('/v1/reviews/{id}', { path: { id }, asMe: true })
  return (
    <>
      <p>
        <a href="/reviews">All that waits</a>
      </p>
      <AnswerState asked={asked} />
      {asked.got !== null && <ReviewCard review={asked.got.body} />}
    </>
  )
}

function Queue() {
  const { query } = usePlace()
  const wanted = new URLSearchParams(query).get('state')
  const state = STATES.find(([one]) => one === wanted)?.[0] ?? 'waiting'
  return (
    <>
      <RadioRow
        legend="Show"
        value={state}
        choices={STATES}
        onChange={(next) => go(`/reviews?state=${next}`, { replace: true })}
      />
      <List key={state} state={state} />
    </>
  )
}

function List({ state }: { readonly state: State }) {
  const asked = useAnswer('/v1/reviews', { query: { state, limit: AT_ONCE }, asMe: true })
  const more = useMore(state, asked.got?.body.nextCursor ?? null)
  const reviews = [...(asked.got?.body.items ?? []), ...more.items]
  return (
    <>
      <AnswerState asked={asked} />
      {asked.got !== null && reviews.length === 0 && <p role="status">{EMPTY[state]}</p>}
      {reviews.length > 0 && (
        <p class="hint" role="status">
          {reviews.length}
          {more.cursor === null ? '' : ' and more'}, oldest first.
        </p>
      )}
      {reviews.map((review) => (
        <ReviewCard key={review.id} review={review} />
      ))}
      {more.error !== null && <Failure error={more.error} />}
      {more.cursor !== null && (
        <button type="button" onClick={() => void more.load()}>
          Show more
        </button>
      )}
    </>
  )
}

/** Further pages of the list, one at a press. */
function useMore(state: State, first: string | null) {
  const [pages, setPages] = useState<readonly Answer<'/v1/reviews'>[]>([])
  const [error, setError] = useState<Error | null>(null)
  const last = pages.at(-1)
  const cursor = last === undefined ? first : last.nextCursor
  const load = () =>
    get('/v1/reviews', { query: { state, limit: AT_ONCE, cursor: cursor! }, asMe: true })
      .then(({ body }) => {
        setPages([...pages, body])
        setError(null)
      })
      .catch((fault: unknown) => setError(fault as Error))
  const items: readonly Review[] = pages.flatMap((page) => page.items)
  return { items, cursor, error, load }
}
