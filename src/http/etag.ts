import { createHash } from 'node:crypto'
import { Readable } from 'node:stream'

import type { onSendHookHandler } from 'fastify'
import fp from 'fastify-plugin'

/** Content codings the compression may apply; each makes another representation with another tag. */
const CODING_SUFFIX = /-(?:br|gzip|deflate|zstd)"$/

/**
 * A strong ETag on every successful read, and 304 where the caller has that representation already.
 *
 * The tag is a hash of the answer. Strong tags must differ between content codings (RFC 9110,
 * 8.8.1), so a compressed answer carries the tag of the plain one with the coding appended.
 * Writes and refusals get no tag. Must be registered after the compression.
 */
export default fp(
  async (app) => {
    app.addHook('onSend', async (request, reply, payload) => {
      const read = request.method === 'GET' || request.method === 'HEAD'
      if (!read || reply.statusCode !== 200) return payload
      const tag = String(reply.getHeader('etag') ?? tagOf(payload) ?? '')
      if (tag === '') return payload
      reply.header('etag', tag)
      if (!reply.hasHeader('cache-control')) reply.header('cache-control', 'no-cache')
      const known = matchingTag(request.headers['if-none-match'], tag)
      if (known === null) return payload
      if (payload instanceof Readable) payload.destroy()
      reply.code(304).header('etag', known).removeHeader('content-length')
      return null
    })
    app.addHook('onRoute', (route) => {
      const before = route.onSend ?? []
      route.onSend = [...(Array.isArray(before) ? before : [before]), markCoding]
    })
  },
  { name: 'etag', dependencies: ['error-handler', '@fastify/compress'] },
)

/** Runs after the compression has decided. */
const markCoding: onSendHookHandler = (_request, reply, payload, done) => {
  const coding = reply.getHeader('content-encoding')
  const tag = reply.getHeader('etag')
  const plain = typeof tag === 'string' && tag.endsWith('"') && !CODING_SUFFIX.test(tag)
  if (plain && typeof coding === 'string' && coding !== 'identity') {
    reply.header('etag', `${tag.slice(0, -1)}-${coding}"`)
  }
  done(null, payload)
}

function tagOf(payload: unknown): string | null {
  if (typeof payload !== 'string' && !Buffer.isBuffer(payload)) return null
  return `"${createHash('sha256').update(payload).digest('base64url').slice(0, 27)}"`
}

/** The caller's own tag for this representation: `If-None-Match` compares weakly (RFC 9110, 13.1.2). */
function matchingTag(ifNoneMatch: string | undefined, tag: string): string | null {
  if (ifNoneMatch === undefined) return null
  if (ifNoneMatch.trim() === '*') return tag
  const candidates = ifNoneMatch.match(/"[^"]*"/g) ?? []
  return candidates.find((candidate) => candidate.replace(CODING_SUFFIX, '"') === tag) ?? null
}
