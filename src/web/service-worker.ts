/**
 * Keeps the pages and the last answers at hand, so that they open at a field without a network.
 * What a pilot writes is not its business: that waits in the outbox of the page.
 */
export {}

declare const self: ServiceWorkerGlobalScope

/** Filled in by the build: a hash of all files, and their names. */
const VERSION = '__VERSION__'
const FILES = '__FILES__'.split(' ')

const SHELLS = 'pages-'
const SHELL = `${SHELLS}${VERSION}`
const ANSWERS = 'answers'
const EXTRA = ['/theme.js', '/icon.svg', '/manifest.webmanifest']
const PAGE =
  /^\/(?:$|(?:submit|compare|mine|data|method|sign-in|setups|components|reviews)(?:\/|$))/

/** How many answers are kept; the oldest go first. */
const KEPT_ANSWERS = 120

/** After this long a network counts as none; a question without end would also hold a newer version off. */
const PATIENCE_MS = 20_000

self.addEventListener('install', (event) => {
  // What is not named by its content is asked for anew: a copy from before would not fit the rest.
  const fresh = ['/', ...EXTRA].map((path) => new Request(path, { cache: 'reload' }))
  event.waitUntil(caches.open(SHELL).then((cache) => cache.addAll([...fresh, ...FILES])))
})

self.addEventListener('activate', (event) => {
  event.waitUntil(
    caches.keys().then(async (names) => {
      // In the order they were made. Tabs that still run the one before fetch their parts from it.
      const shells = names.filter((name) => name.startsWith(SHELLS))
      await Promise.all(shells.slice(0, -2).map((name) => caches.delete(name)))
      await self.clients.claim()
    }),
  )
})

/** A newer version waits until a page asks for it, so that nobody's page changes under their hands. */
self.addEventListener('message', (event) => {
  if (event.data === 'takeOver') event.waitUntil(self.skipWaiting())
})

self.addEventListener('fetch', (event) => {
  const { request } = event
  const { origin, pathname } = new URL(request.url)
  if (request.method !== 'GET' || origin !== self.location.origin) return
  if (request.mode === 'navigate') {
    if (PAGE.test(pathname)) event.respondWith(fromShell('/', request))
  } else if (pathname.startsWith('/assets/') || EXTRA.includes(pathname)) {
    event.respondWith(fromShell(pathname, request))
  } else if (pathname.startsWith('/v1/') && !request.headers.has('authorization')) {
    event.respondWith(fromNetwork(request))
  }
})

async function fromShell(key: string, request: Request): Promise<Response> {
  const cache = await caches.open(SHELL)
  return (await cache.match(key)) ?? (await caches.match(key)) ?? fetch(request)
}

/** The network's answer, kept; without a network the kept one, marked with its date. */
async function fromNetwork(request: Request): Promise<Response> {
  const cache = await caches.open(ANSWERS)
  try {
    const signal = AbortSignal.any([request.signal, AbortSignal.timeout(PATIENCE_MS)])
    const answer = await fetch(request, { signal })
    // A device without room for it still gets its answer.
    if (answer.ok) await keep(cache, request, answer.clone()).catch(() => {})
    return answer
  } catch (error) {
    const kept = await cache.match(request)
    if (kept === undefined) throw error
    const headers = new Headers(kept.headers)
    headers.set('x-kept-since', kept.headers.get('date') ?? '')
    return new Response(await kept.blob(), { status: kept.status, headers })
  }
}

async function keep(cache: Cache, request: Request, answer: Response): Promise<void> {
  await cache.put(request, answer)
  const keys = await cache.keys()
  await Promise.all(keys.slice(0, -KEPT_ANSWERS).map((key) => cache.delete(key)))
}
