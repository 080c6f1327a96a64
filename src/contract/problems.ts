import { z } from 'zod'

/** Every problem this API answers with. Clients may rely on the keys; adding one here documents it. */
const CATALOGUE = {
  'invalid-request': { status: 400, title: 'The request does not match the schema' },
  'not-authenticated': { status: 401, title: 'A valid access token or API key is required' },
  'wrong-credentials': { status: 401, title: 'E-mail and password do not match an account' },
  'not-permitted': { status: 403, title: 'This account may not do that' },
  'not-found': { status: 404, title: 'There is no such resource' },
  'method-not-allowed': { status: 405, title: 'This path does not take that method' },
  conflict: { status: 409, title: 'The request conflicts with what is stored' },
  'request-in-flight': {
    status: 409,
    title: 'A request with this Idempotency-Key is being worked on',
  },
  gone: { status: 410, title: 'The resource was withdrawn' },
  'payload-too-large': { status: 413, title: 'The request body is too large' },
  'unsupported-media-type': { status: 415, title: 'The body has a type that is not taken here' },
  'range-not-satisfiable': { status: 416, title: 'The file has no such bytes' },
  'outside-model-range': { status: 422, title: 'A value lies outside what the model is valid for' },
  'unknown-reference': { status: 422, title: 'The request names something that does not exist' },
  'faulty-file': { status: 422, title: 'The file has faults; nothing of it was taken' },
  'idempotency-key-reused': {
    status: 422,
    title: 'This Idempotency-Key was used with another request',
  },
  'too-many-requests': { status: 429, title: 'The rate limit is used up' },
  'internal-error': { status: 500, title: 'The server failed to answer' },
  'not-ready': { status: 503, title: 'The service cannot answer yet' },
} as const

export type ProblemKind = keyof typeof CATALOGUE

/** One invalid field of a request. */
export const FieldError = z.object({
  pointer: z
    .string()
    .describe('JSON Pointer (RFC 6901) into the request; empty for the whole body'),
  detail: z.string(),
  row: z.int().optional().describe('Row of a file; its header is row 1'),
  column: z.string().optional().describe('Column of a file'),
  file: z
    .string()
    .optional()
    .describe('Part of the request that held the file, where there are several'),
})

export type FieldError = z.infer<typeof FieldError>

/** Error body of every 4xx and 5xx answer (RFC 9457, application/problem+json). */
export const Problem = z
  .object({
    type: z.string().describe('Stable identifier of the kind of problem'),
    title: z.string(),
    status: z.int().min(400).max(599),
    detail: z.string().optional().describe('What went wrong this time, in one sentence'),
    instance: z.string().describe('Request id, the same as in the server log'),
    errors: z.array(FieldError).optional().describe('One entry per invalid field'),
    existingId: z
      .uuid()
      .optional()
      .describe('Of a conflict with something the catalogue has already: the id of that record'),
  })
  .meta({ id: 'Problem' })

export type Problem = z.infer<typeof Problem>

/** What a problem says beside its kind. */
type Extra = Pick<Problem, 'detail' | 'errors' | 'existingId'>

/** Throw this from a service; the error handler turns it into the response. */
export class ApiProblem extends Error {
  override readonly name = 'ApiProblem'
  readonly kind: ProblemKind
  readonly extra: Extra

  constructor(kind: ProblemKind, extra: Extra = {}) {
    super(extra.detail ?? CATALOGUE[kind].title)
    this.kind = kind
    this.extra = extra
  }

  /** The response body; instance is the request id. */
  toBody(instance: string): Problem {
    return { type: `/problems/${this.kind}`, ...CATALOGUE[this.kind], ...this.extra, instance }
  }
}

/** The answers every route may give beside its own, by status, for the `response` of a route's schema. */
export function problems<const S extends readonly number[]>(...statuses: S) {
  return Object.fromEntries(statuses.map((status) => [status, Problem])) as unknown as {
    [K in S[number]]: typeof Problem
  }
}
