import type { FastifyError } from 'fastify'
import fp from 'fastify-plugin'
import { hasZodFastifySchemaValidationErrors } from 'fastify-type-provider-zod'

import { ApiProblem, type ProblemKind } from '../contract/problems.ts'
import { OutOfRangeError } from '../core/errors.ts'

/** Turns anything thrown below it into application/problem+json. The only place that does. */
export default fp(
  async (app) => {
    app.setErrorHandler((error, request, reply) => {
      const problem = toProblem(error)
      const body = problem.toBody(request.id)
      if (body.status >= 500) request.log.error({ err: error }, 'request failed')
      else request.log.info({ problem: problem.kind }, 'request refused')
      if (body.status === 503 && !reply.hasHeader('retry-after')) reply.header('retry-after', '2')
      return reply.code(body.status).type('application/problem+json').send(JSON.stringify(body))
    })
    app.setNotFoundHandler((request) => {
      throw new ApiProblem('not-found', {
        detail: `There is nothing at ${request.method} ${pathOf(request.url)}.`,
      })
    })
  },
  { name: 'error-handler' },
)

/** Refusals by Fastify and its plugins; every other 4xx of theirs is a malformed request. */
const KIND_OF_STATUS: Readonly<Record<number, ProblemKind>> = {
  413: 'payload-too-large',
  415: 'unsupported-media-type',
  429: 'too-many-requests',
  503: 'not-ready',
}

function toProblem(error: unknown): ApiProblem {
  if (error instanceof ApiProblem) return error
  if (error instanceof OutOfRangeError) {
    return new ApiProblem('outside-model-range', { detail: error.message })
  }
  if (hasZodFastifySchemaValidationErrors(error)) {
    const errors = error.validation.map((issue) => ({
      pointer: issue.instancePath === '/' ? '' : issue.instancePath, // RFC 6901: '' is the body
      detail: issue.message ?? 'invalid',
    }))
    return new ApiProblem('invalid-request', { errors })
  }
  const { statusCode = 500, message } = error as FastifyError
  if (statusCode < 500 || statusCode === 503) {
    return new ApiProblem(KIND_OF_STATUS[statusCode] ?? 'invalid-request', { detail: message })
  }
  return new ApiProblem('internal-error') // nothing of the cause leaves the server
}

function pathOf(url: string): string {
  return url.split('?')[0]!
}
