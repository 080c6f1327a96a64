import { STATUS_CODES } from 'node:http'

type Json = Record<string, unknown>

interface Operation extends Json {
  security?: readonly Json[]
  responses: Record<string, Json>
}

export interface OpenApiDocument extends Json {
  paths: Record<string, Record<string, Operation>>
  components: Record<string, Record<string, Json>>
}

const HEADERS = {
  ETag: { description: 'Strong validator of the answer.', schema: { type: 'string' } },
  'Retry-After': { description: 'Seconds to wait.', schema: { type: 'integer' } },
  'RateLimit-Policy': {
    description: 'The quota q per window of w seconds.',
    schema: { type: 'string' },
  },
  RateLimit: {
    description: 'What remains (r) of the quota, and the seconds (t) until it is whole again.',
    schema: { type: 'string' },
  },
}

/**
 * Adds to a generated document what holds for every route and is therefore written in none:
 * errors are problem+json, who needs a token, 304 for known ETags, 429 over the limit. Sorted, and
 * without schemas that nothing uses, so that the same routes give the same text.
 */
export function completeDocument(document: OpenApiDocument): OpenApiDocument {
  for (const path of Object.values(document.paths)) {
    for (const [method, operation] of Object.entries(path)) completeOperation(method, operation)
  }
  const complete = {
    ...document,
    paths: sorted(document.paths),
    components: {
      ...document.components,
      headers: HEADERS,
      responses: {
        NotModified: {
          description: 'The caller has this representation already (If-None-Match).',
          headers: { ETag: { $ref: '#/components/headers/ETag' } },
        },
        TooManyRequests: {
          description: 'The rate limit is used up.',
          headers: Object.fromEntries(
            ['Retry-After', 'RateLimit-Policy', 'RateLimit'].map((name) => [
              name,
              { $ref: `#/components/headers/${name}` },
            ]),
          ),
          content: { 'application/problem+json': { schema: PROBLEM } },
        },
      },
    },
  }
  const schemas = usedSchemas(complete)
  for (const [name, schema] of Object.entries(schemas)) {
    if (!name.endsWith('Input')) leaveOpen(schema)
  }
  return withShortNames({ ...complete, components: { ...complete.components, schemas } })
}

const PROBLEM = { $ref: '#/components/schemas/Problem' }

function completeOperation(method: string, operation: Operation): void {
  operation.security ??= '401' in operation.responses ? [{ bearer: [] }] : []
  leaveOpen(operation.responses)
  for (const [status, response] of Object.entries(operation.responses)) {
    if (response.description === 'Default Response') {
      response.description = STATUS_CODES[status] ?? 'Answer'
    }
    const content = response.content as Json | undefined
    if (Number(status) >= 400 && content !== undefined && 'application/json' in content) {
      response.content = { 'application/problem+json': content['application/json'] }
    }
    if (status === '200' && method === 'get') {
      response.headers = {
        ETag: { $ref: '#/components/headers/ETag' },
        ...(response.headers as Json),
      }
    }
  }
  if (method === 'get' && '200' in operation.responses) {
    operation.responses['304'] ??= { $ref: '#/components/responses/NotModified' }
  }
  operation.responses['429'] ??= { $ref: '#/components/responses/TooManyRequests' }
}

/** Answers may gain fields in any release: a client that was told otherwise would break. */
function leaveOpen(schema: unknown): void {
  if (typeof schema !== 'object' || schema === null) return
  const object = schema as Json
  if (object.additionalProperties === false) delete object.additionalProperties
  for (const child of Object.values(object)) leaveOpen(child)
}

/** The schemas that the paths and responses reach, in order of name. */
function usedSchemas(document: OpenApiDocument): Record<string, Json> {
  const all = document.components.schemas ?? {}
  const used = new Set<string>()
  const visit = (text: string): void => {
    for (const [, name] of text.matchAll(/"#\/components\/schemas\/([^"/]+)/g)) {
      if (used.has(name!)) continue
      used.add(name!)
      visit(JSON.stringify(all[name!] ?? {}))
    }
  }
  visit(JSON.stringify([document.paths, document.components.responses]))
  return sorted(Object.fromEntries(Object.entries(all).filter(([name]) => used.has(name))))
}

/** Schemas of requests under their own name, where no answer has a schema of that name. */
function withShortNames(document: OpenApiDocument): OpenApiDocument {
  const names = Object.keys(document.components.schemas ?? {})
  const shortOf = (name: string): string => {
    const short = name.replace(/Input$/, '')
    return names.includes(short) ? name : short
  }
  const text = JSON.stringify(document).replaceAll(
    /"#\/components\/schemas\/([^"/]+)/g,
    (_match, name: string) => `"#/components/schemas/${shortOf(name)}`,
  )
  const renamed = JSON.parse(text) as OpenApiDocument
  const schemas = Object.entries(renamed.components.schemas ?? {})
  renamed.components.schemas = sorted(
    Object.fromEntries(schemas.map(([name, schema]) => [shortOf(name), schema])),
  )
  return renamed
}

function sorted<T>(record: Record<string, T>): Record<string, T> {
  return Object.fromEntries(Object.entries(record).sort(([a], [b]) => (a < b ? -1 : a > b ? 1 : 0)))
}
