import { useEffect, useState } from 'preact/hooks'

import type { Answer, Schemas } from '../../api/client.ts'
import { type Asked, useAnswer } from '../../api/use-answer.ts'
import { AnswerState } from '../../components/notices.tsx'
import { useOutbox } from '../../store/outbox.ts'
import { type KeptTests, keepOwnTests, keptOwnTests } from '../../store/own-tests.ts'
import { ageOf } from './age.ts'
import { OwnTest } from './own-test.tsx'

type Full = Schemas['FullSubmission']
type Page = Answer<'/v1/submissions'>

/** The newest ones; all of them are in the download. */
const SHOWN = 50

/** With one bar of a network an answer may take for ever [ms]. */
const PATIENCE_MS = 1_500

/** What the service has of the reader; without it, what it had when it was last asked. */
export function OwnTests({ email }: { readonly email: string }) {
  const { arrived } = useOutbox()
  const asked = useAnswer('/v1/submissions', {
    asMe: true,
    query: { mine: 'true', limit: SHOWN },
    // Asked anew when something has arrived.
    path: { arrived: String(arrived.length) },
  })
  const { list, isKept } = useList(email, asked)
  return (
    <section>
      {isKept && list !== null ? (
        <FromThisDevice list={list} asked={asked} />
      ) : (
        <AnswerState asked={asked} />
      )}
      {!isKept && list?.tests.length === 0 && (
        <p>
          Nothing has arrived yet. <a href="/submit">Submit a test</a>: a climb with a stopwatch is
          enough to begin with.
        </p>
      )}
      {list?.tests.map((test) => (
        <OwnTest key={test.id} test={test} isKept={isKept} onChanged={asked.retry} />
      ))}
      {list?.isCut === true && (
        <p class="hint">These are the newest {SHOWN}. The download below holds all.</p>
      )}
    </section>
  )
}

/** The list as it came now, which is kept for next time; where it does not come, the kept one. */
function useList(email: string, { got, isLoading }: Asked<Page>) {
  const isSlow = useSlow(isLoading)
  const [kept, setKept] = useState<KeptTests | null>(null)
  useEffect(() => {
    keptOwnTests(email).then(setKept, () => {}) // without a store nothing was kept
  }, [email])
  const body = got?.body ?? null
  useEffect(() => {
    if (body !== null) keepOwnTests(email, listOf(body)).catch(() => {}) // no room: not kept
  }, [body])
  if (body !== null) return { list: listOf(body), isKept: false }
  return { list: isLoading && !isSlow ? null : kept, isKept: true }
}

/** Whether something has been on its way for longer than a reader should look at nothing. */
function useSlow(isLoading: boolean): boolean {
  const [isSlow, setSlow] = useState(false)
  useEffect(() => {
    setSlow(false)
    if (!isLoading) return
    const timer = setTimeout(() => setSlow(true), PATIENCE_MS)
    return () => clearTimeout(timer)
  }, [isLoading])
  return isSlow
}

function listOf({ items, nextCursor }: Page): KeptTests {
  const tests = items.filter((one): one is Full => one.view === 'full')
  return { tests, isCut: nextCursor !== null, readAt: Date.now() }
}

/** Nobody should take it for what the service has now. */
function FromThisDevice(props: { readonly list: KeptTests; readonly asked: Asked<unknown> }) {
  const { list, asked } = props
  const when = new Date(list.readAt).toLocaleString('en-GB', {
    dateStyle: 'medium',
    timeStyle: 'short',
  })
  return (
    <div class="notice" role="status">
      <p>
        <strong>
          {asked.isLoading
            ? 'The newest list is on its way.'
            : 'The newest list cannot be had now.'}
        </strong>{' '}
        This is the one of {ageOf(list.readAt, Date.now())} ({when}), as this device kept it.
        {list.tests.length === 0 && ' It was empty.'}
      </p>
      {!asked.isLoading && (
        <button type="button" onClick={asked.retry}>
          Ask again
        </button>
      )}
    </div>
  )
}
