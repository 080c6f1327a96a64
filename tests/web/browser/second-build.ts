import { readFile } from 'node:fs/promises'
import { createServer, type IncomingMessage, request, type ServerResponse } from 'node:http'
import type { AddressInfo } from 'node:net'
import { extname, join } from 'node:path'
import { fileURLToPath } from 'node:url'

import { build, loadConfigFromFile } from 'vite'

const CONFIG = fileURLToPath(new URL('../../../.config/vite.ts', import.meta.url))

/** Builds the pages a second time into a folder, with some words of theirs replaced by others. */
export async function buildAgain(
  outDir: string,
  [words, others]: readonly [string, string],
): Promise<void> {
  const loaded = await loadConfigFromFile({ command: 'build', mode: 'production' }, CONFIG)
  const { plugins = [], build: options, ...config } = loaded!.config
  const rename = {
    name: 'other-words',
    transform: (code: string, id: string) =>
      id.includes('/src/web/') ? code.replaceAll(words, others) : null,
  }
  await build({
    ...config,
    configFile: false,
    plugins: [rename, ...plugins],
    build: { ...options, outDir, emptyOutDir: true },
  })
}

/** What stands before a service and, once told, has the pages of another build. */
export interface Front {
  readonly url: string
  updateTo(folder: string): void
  /** From now on a call of this path gets no answer, as in a network that is there and brings nothing. */
  leaveOpen(path: string): void
  close(): Promise<void>
}

const TYPES: Readonly<Record<string, string>> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.svg': 'image/svg+xml',
  '.webmanifest': 'application/manifest+json',
}

/** The calls of the interface go on to the service; the pages are its own, or those of the other build. */
export async function openFront(service: string): Promise<Front> {
  let folder: string | null = null
  let open = ''
  const server = createServer((asked, answer) => {
    const { pathname } = new URL(asked.url ?? '/', service)
    if (pathname === open) return
    if (folder === null || pathname.startsWith('/v1/')) passOn(service, asked, answer)
    else void serveFrom(folder, pathname, answer)
  })
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve))
  const { port } = server.address() as AddressInfo
  return {
    url: `http://127.0.0.1:${port}`,
    updateTo: (next) => {
      folder = next
    },
    leaveOpen: (path) => {
      open = path
    },
    close: () =>
      new Promise((resolve) => {
        server.close(() => resolve())
        server.closeAllConnections()
      }),
  }
}

function passOn(service: string, asked: IncomingMessage, answer: ServerResponse): void {
  const { method, headers } = asked
  const onward = request(new URL(asked.url ?? '/', service), { method, headers }, (incoming) => {
    answer.writeHead(incoming.statusCode ?? 502, incoming.headers)
    incoming.pipe(answer)
  })
  onward.on('error', () => answer.destroy())
  asked.pipe(onward)
}

/** As the service does: one document for every page; what an older build had is gone. */
async function serveFrom(folder: string, pathname: string, answer: ServerResponse): Promise<void> {
  const isFile = extname(pathname) !== ''
  const file = isFile ? pathname : '/index.html'
  const bytes = await readFile(join(folder, file)).catch(() => null)
  const type = TYPES[extname(file)] ?? 'application/octet-stream'
  answer.writeHead(bytes === null ? 404 : 200, {
    'content-type': type,
    'cache-control': 'no-cache',
  })
  answer.end(bytes ?? '')
}
