import compress from '@fastify/compress'
import helmet from '@fastify/helmet'
import fp from 'fastify-plugin'

import etag from './etag.ts'

/**
 * What a browser may do with our pages: everything from this server, nothing from another.
 * `data:` images are the icons inside the style sheet of the API documentation.
 */
const CONTENT_SECURITY_POLICY = {
  defaultSrc: ["'self'"],
  imgSrc: ["'self'", 'data:'],
  objectSrc: ["'none'"],
  baseUri: ["'self'"],
  formAction: ["'self'"],
  frameAncestors: ["'none'"],
}

/** Headers that protect a browser, compression, and strong ETags: what every answer carries. */
export default fp(
  async (app) => {
    await app.register(helmet, {
      contentSecurityPolicy: { useDefaults: false, directives: CONTENT_SECURITY_POLICY },
      // Whoever terminates TLS announces HSTS; the service itself speaks plain HTTP.
      strictTransportSecurity: false,
    })
    await app.register(compress, { encodings: ['br', 'gzip'], globalDecompression: false })
    await app.register(etag)
    app.addHook('onSend', async (_request, reply) => {
      if (reply.statusCode >= 400) reply.header('cache-control', 'no-store')
    })
  },
  { name: 'headers', dependencies: ['error-handler'] },
)
