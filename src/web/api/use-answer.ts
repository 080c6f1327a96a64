import { useEffect, useState } from 'preact/hooks'

import { type Answer, type GetOptions, type Got, get } from './client.ts'
import type { paths } from './types.ts'

/** A read as a page sees it: on its way, there, or failed; the last answer stays while the next is on its way. */
export interface Asked<T> {
  readonly got: Got<T> | null
  readonly error: Error | null
  readonly isLoading: boolean
  retry(): void
}

/** Asks once per change of the question; null asks nothing. */
export function useAnswer<P extends Parameters<typeof get>[0] & keyof paths>(
  path: P,
  question: Omit<GetOptions<P>, 'signal'> | null,
): Asked<Answer<P>> {
  const key = question === null ? null : JSON.stringify([path, question])
  const [attempt, setAttempt] = useState(0)
  const [state, setState] = useState<Omit<Asked<Answer<P>>, 'retry'>>({
    got: null,
    error: null,
    isLoading: key !== null,
  })
  useEffect(() => {
    if (question === null) {
      setState({ got: null, error: null, isLoading: false })
      return
    }
    const abort = new AbortController()
    setState((before) => ({ ...before, isLoading: true }))
    get(path, { ...question, signal: abort.signal } as GetOptions<P>)
      .then((got) => setState({ got: got as Got<Answer<P>>, error: null, isLoading: false }))
      .catch((error: unknown) => {
        if (abort.signal.aborted) return
        setState({ got: null, error: error as Error, isLoading: false })
      })
    return () => abort.abort()
  }, [key, attempt])
  return { ...state, retry: () => setAttempt((n) => n + 1) }
}
