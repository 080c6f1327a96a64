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
  const [state, setState] = useState<State<Answer<P>>>({ of: null, got: null, error: null })
  useEffect(() => {
    if (question === null || key === null) {
      setState({ of: null, got: null, error: null })
      return
    }
    const abort = new AbortController()
    setState((before) => ({ ...before, of: null }))
    get(path, { ...question, signal: abort.signal } as GetOptions<P>)
      .then((got) => setState({ of: key, got: got as Got<Answer<P>>, error: null }))
      .catch((error: unknown) => {
        if (abort.signal.aborted) return
        setState({ of: key, got: null, error: error as Error })
      })
    return () => abort.abort()
  }, [key, attempt])
  const { of, got, error } = state
  return { got, error, isLoading: of !== key, retry: () => setAttempt((n) => n + 1) }
}

interface State<T> {
  /** The question it answers; null while the next answer is on its way. */
  readonly of: string | null
  readonly got: Got<T> | null
  readonly error: Error | null
}
