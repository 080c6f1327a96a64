import { useEffect, useRef } from 'preact/hooks'

import type { Schemas } from '../api/client.ts'
import { useAnswer } from '../api/use-answer.ts'
import type { Metric } from '../metrics.ts'

type Comparison = Schemas['Comparison']

/** A new fit takes a moment; it is asked for again after these times [ms]. */
const AGAIN_MS = [1_500, 4_000, 10_000] as const
/** More pairs than these are looked at on the page of their own. */
const SHOWN_PAIRS = 3

/** What the comparison of the setups of a session says, before and with a test that has just arrived. */
export function Effect({ ids, metric }: { readonly ids: readonly string[]; metric: Metric }) {
  const query = { setups: ids.join(','), metric }
  const asked = useAnswer('/v1/comparisons', { query })
  const before = useRef<Comparison | null>(null)
  useEffect(() => {
    const timers = AGAIN_MS.map((wait) => setTimeout(asked.retry, wait))
    return () => timers.forEach(clearTimeout)
  }, [])
  const now = asked.got?.body ?? null
  before.current ??= now
  const isNew = now !== null && now.fitId !== before.current?.fitId
  return (
    <div role="status">
      {(now?.pairs ?? []).slice(0, SHOWN_PAIRS).map((pair) => (
        <PairNow
          key={`${pair.a} ${pair.b}`}
          now={pair.sentence}
          before={isNew ? sentenceOf(before.current, pair) : null}
        />
      ))}
      <p>
        <a href={`/compare?setups=${ids.join(',')}&metric=${metric}`}>Compare them</a>
      </p>
    </div>
  )
}

function PairNow({ now, before }: { readonly now: string; readonly before: string | null }) {
  return (
    <>
      <p>
        <strong>{now}</strong>
      </p>
      {before !== null && before !== now && <p class="hint">Before your test: {before}</p>}
    </>
  )
}

function sentenceOf(comparison: Comparison | null, { a, b }: Comparison['pairs'][number]) {
  const pair = comparison?.pairs.find((one) => one.a === a && one.b === b)
  return pair?.sentence ?? null
}
