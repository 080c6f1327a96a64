import { accessToken, tokenAfter } from './session.ts'
import type { components, paths } from './types.ts'

export type Schemas = components['schemas']
export type Problem = Schemas['Problem']

type Method = 'get' | 'post' | 'delete'
type PathsWith<M extends Method> = {
  [P in keyof paths]: NonNullable<paths[P][M]> extends { responses: unknown } ? P : never
}[keyof paths]
type Operation<P extends keyof paths, M extends Method> = NonNullable<paths[P][M]>
type Json<R> = R extends { content: { 'application/json': infer Body } } ? Body : never
type Answers<O> = O extends { responses: infer R } ? R : never

/** What a call answers when all went well. */
export type Answer<P extends keyof paths, M extends Method = 'get'> =
  | Json<Answers<Operation<P, M>>[200 & keyof Answers<Operation<P, M>>]>
  | Json<Answers<Operation<P, M>>[201 & keyof Answers<Operation<P, M>>]>

type Query<P extends keyof paths> =
  Operation<P, 'get'> extends { parameters: { query?: infer Q } } ? Q : never
type Body<P extends keyof paths> =
  Operation<P, 'post'> extends { requestBody: { content: { 'application/json': infer B } } }
    ? B
    : never

export interface GetOptions<P extends keyof paths> {
  readonly query?: Query<P>
  readonly path?: Readonly<Record<string, string>>
  readonly signal?: AbortSignal
  /** Send the token of who is signed in. */
  readonly asMe?: boolean
}

/** An answer with the day it was kept, where it comes from this device because there is no network. */
export interface Got<T> {
  readonly body: T
  readonly keptSince: Date | null
}

/** The service refused, and says why. */
export class Refusal extends Error {
  override readonly name = 'Refusal'
  readonly problem: Problem

  constructor(problem: Problem) {
    super(problem.detail ?? problem.errors?.[0]?.detail ?? problem.title)
    this.problem = problem
  }
}

/** There was no answer at all: no network, or the service is down. */
export class NoNetwork extends Error {
  override readonly name = 'NoNetwork'
}

/** Reads. Names of calls, parameters and answers are those of the interface, checked by the compiler. */
export async function get<P extends PathsWith<'get'>>(
  path: P,
  options: GetOptions<P> = {},
): Promise<Got<Answer<P>>> {
  const url = urlOf(path, options.path, options.query as Record<string, unknown> | undefined)
  const init = options.signal === undefined ? {} : { signal: options.signal }
  const response = await askAs(options.asMe === true, url, init)
  const kept = response.headers.get('x-kept-since')
  return {
    body: await jsonOf<Answer<P>>(response),
    keptSince: kept === null ? null : new Date(kept),
  }
}

export interface WriteOptions {
  readonly path?: Readonly<Record<string, string>>
  readonly idempotencyKey?: string
  /** Without an account: signing up and in. */
  readonly asAnybody?: boolean
}

/** Writes. */
export async function post<P extends PathsWith<'post'>>(
  path: P,
  body: Body<P>,
  options: WriteOptions = {},
): Promise<Answer<P, 'post'>> {
  const headers: Record<string, string> = { 'content-type': 'application/json' }
  if (options.idempotencyKey !== undefined) headers['idempotency-key'] = options.idempotencyKey
  const init = { method: 'POST', headers, body: JSON.stringify(body) }
  const response = await askAs(options.asAnybody !== true, urlOf(path, options.path), init)
  return jsonOf<Answer<P, 'post'>>(response)
}

/** Sends a notebook; what comes of it is followed at a place of its own (RFC 7240, respond-async). */
export async function sendNotebook(csv: Blob): Promise<Schemas['ImportRequest']> {
  const headers = { 'content-type': 'text/csv', prefer: 'respond-async' }
  return jsonOf(await askAs(true, '/v1/imports', { method: 'POST', headers, body: csv }))
}

/** Takes away. */
export async function remove<P extends PathsWith<'delete'>>(
  path: P,
  options: WriteOptions = {},
): Promise<void> {
  await askAs(true, urlOf(path, options.path), { method: 'DELETE' })
}

type Init = Omit<RequestInit, 'headers'> & { readonly headers?: Readonly<Record<string, string>> }

/** Asks with the token of who is signed in; once more with a new one where the old one is no longer taken. */
async function askAs(asMe: boolean, url: string, init: Init): Promise<Response> {
  const token = asMe ? await accessToken() : null
  try {
    return await ask(url, { ...init, headers: headersWith(token, init) })
  } catch (error) {
    const isStale = error instanceof Refusal && error.problem.status === 401
    const next = isStale && token !== null ? await tokenAfter(token) : null
    if (next === null) throw error
    return ask(url, { ...init, headers: headersWith(next, init) })
  }
}

function headersWith(token: string | null, { headers }: Init): Record<string, string> {
  const own: Record<string, string> = token === null ? {} : { authorization: `Bearer ${token}` }
  return { accept: 'application/json', ...headers, ...own }
}

async function ask(url: string, init: RequestInit): Promise<Response> {
  let response: Response
  try {
    response = await fetch(url, init)
  } catch (error) {
    if (init.signal?.aborted) throw error
    throw new NoNetwork('The service cannot be reached.')
  }
  if (response.ok) return response
  throw new Refusal(await problemOf(response))
}

/** The body of an answer. A sign-in page of a foreign network answers 200 too, but not in JSON. */
export async function jsonOf<T>(response: Response): Promise<T> {
  try {
    return (await response.json()) as T
  } catch {
    throw new NoNetwork('The answer did not come from the service.')
  }
}

/** What a refusal says of itself, also where a server in between wrote it. */
export async function problemOf(response: Response): Promise<Problem> {
  const fallback = { type: '', title: 'The service failed to answer', status: response.status }
  const body: unknown = await response.json().catch(() => null)
  return { ...fallback, instance: '', ...(body as Partial<Problem> | null) }
}

function urlOf(
  path: string,
  names: Readonly<Record<string, string>> = {},
  query: Readonly<Record<string, unknown>> = {},
): string {
  const filled = path.replace(/\{(\w+)\}/g, (_match, name: string) =>
    encodeURIComponent(names[name] ?? ''),
  )
  const search = new URLSearchParams()
  for (const [name, value] of Object.entries(query)) {
    if (value !== undefined && value !== null) search.set(name, String(value))
  }
  const text = search.toString()
  return text === '' ? filled : `${filled}?${text}`
}
