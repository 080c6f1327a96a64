import rateLimit from '@fastify/rate-limit'
import type { onRequestAsyncHookHandler } from 'fastify'
import fp from 'fastify-plugin'

import { ApiProblem } from '../contract/problems.ts'

interface Quota {
  /** Requests per minute and address. */
  readonly max: number
}

export interface RateLimitOptions {
  readonly enabled: boolean
  /** For every route without its own quota. */
  readonly general?: Quota
  /** By method and path: where a guess costs an attacker nothing. */
  readonly strict?: Readonly<Record<string, Quota>>
}

const WINDOW_S = 60

const STRICT: Readonly<Record<string, Quota>> = {
  'POST /v1/tokens': { max: 20 },
  'POST /v1/accounts': { max: 10 },
}

/**
 * Limits requests per address and minute, before anything else looks at the request.
 *
 * The limits are announced twice: in `RateLimit-Policy` and `RateLimit` as the current IETF draft
 * (draft-ietf-httpapi-ratelimit-headers, from 08 on) has them, and in the three `RateLimit-*`
 * fields of the drafts before, which more clients read. A route may set `config.rateLimit: false`.
 */
export default fp<RateLimitOptions>(
  async (app, { enabled, general = { max: 1_200 }, strict = STRICT }) => {
    if (!enabled) return
    app.addHook('onRoute', (route) => {
      const quota = strict[`${route.method} ${route.url}`]
      if (quota !== undefined) {
        route.config = { rateLimit: { ...quota, timeWindow: WINDOW_S * 1000 }, ...route.config }
      }
    })
    await app.register(rateLimit, {
      global: false,
      max: general.max,
      timeWindow: WINDOW_S * 1000,
      enableDraftSpec: true,
      errorResponseBuilder: (_request, { max, after }) =>
        new ApiProblem('too-many-requests', {
          detail: `At most ${max} requests per minute from one address; try again in ${after}.`,
        }),
    })
    const limit = app.rateLimit() as onRequestAsyncHookHandler
    app.addHook('onRequest', async function (request, reply) {
      if (request.routeOptions.config?.rateLimit === undefined)
        await limit.call(this, request, reply)
    })
    app.addHook('onSend', async (_request, reply) => {
      const max = reply.getHeader('ratelimit-limit')
      if (max === undefined) return
      const remaining = reply.getHeader('ratelimit-remaining')
      const resetS = reply.getHeader('ratelimit-reset')
      reply.header('ratelimit-policy', `"address";q=${max};w=${WINDOW_S}`)
      reply.header('ratelimit', `"address";r=${remaining};t=${resetS}`)
    })
  },
  { name: 'rate-limit', dependencies: ['error-handler'] },
)
