import { shared, useShared } from './store/shared.ts'

/** Where the reader is: the path and the query. */
export interface Place {
  readonly path: string
  readonly query: string
}

const here = (): Place => ({ path: location.pathname, query: location.search })
const place = shared<Place>(here())

/** Paths the service answers itself. */
const OUTSIDE = /^\/(?:v1|docs|openapi\.json|healthz|readyz|metrics|\.well-known)(?:\/|$)/

addEventListener('popstate', () => place.set(here()))

/** Links within the pages do not load a new document. */
document.addEventListener('click', (event) => {
  const link = (event.target as Element | null)?.closest('a')
  const isPlain = event.button === 0 && !event.metaKey && !event.ctrlKey && !event.shiftKey
  if (!link || !isPlain || event.defaultPrevented) return
  const url = new URL(link.href, location.href)
  const isOurs = url.origin === location.origin && !OUTSIDE.test(url.pathname)
  if (!isOurs || link.target !== '' || link.hasAttribute('download')) return
  if (url.pathname === location.pathname && url.search === location.search && url.hash) return
  event.preventDefault()
  go(`${url.pathname}${url.search}`)
  scrollTo(0, 0)
})

/** Goes to a page; `replace` leaves no step to go back to. */
export function go(url: string, { replace = false } = {}): void {
  if (replace) history.replaceState(null, '', url)
  else history.pushState(null, '', url)
  place.set(here())
}

export function usePlace(): Place {
  return useShared(place)
}
