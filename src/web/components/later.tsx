import type { ComponentType } from 'preact'
import { useEffect, useState } from 'preact/hooks'

import { Failure, Loading } from './notices.tsx'

/** A page whose code comes when it is opened. */
export function later<P extends object>(load: () => Promise<ComponentType<P>>): ComponentType<P> {
  let loaded: ComponentType<P> | null = null
  return function Later(props: P) {
    const [Page, setPage] = useState<ComponentType<P> | null>(() => loaded)
    const [error, setError] = useState<Error | null>(null)
    useEffect(() => {
      load()
        .then((page) => {
          loaded = page
          setPage(() => page)
        })
        .catch(setError)
    }, [])
    if (error !== null) return <Failure error={error} retry={() => location.reload()} />
    return Page === null ? <Loading /> : <Page {...props} />
  }
}
