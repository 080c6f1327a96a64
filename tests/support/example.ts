import { expect } from 'vitest'

import type { TestApp } from './app.ts'

const FOLDER = new URL('../../openapi/examples/', import.meta.url)
const DAY = '2026-05-18'
const TIME = `${DAY}T07:30:00.000Z`

/** One request to show, and the status it must have. */
export interface Shown {
  readonly operationId: string
  readonly method: 'get' | 'post'
  readonly path: string
  /** Text is sent as CSV. */
  readonly body?: object | string
  /** Headers to show, beside those that every request has. */
  readonly headers?: Readonly<Record<string, string>>
  /** What of a long answer is shown. */
  readonly shorten?: (body: never) => unknown
  readonly status?: number
  /** Access token of who asks. */
  readonly token?: string
}

/**
 * Keeps one request and answer per operation in openapi/examples, for readers of the API. Ids, hashes
 * and times, which every run makes anew, stand there as constants;
 * numbers are cut to six digits. After a change that is meant: `npx vitest run -u` on the test.
 */
export function exampleKeeper({ request }: Pick<TestApp, 'request'>) {
  const constants = new Map<string, string>()
  const constantId = (id: string): string => {
    const next = `5e7a9d10-0000-4000-8000-${String(constants.size + 201).padStart(12, '0')}`
    if (!constants.has(id)) constants.set(id, next)
    return constants.get(id)!
  }
  const fits = new Map<string, string>()
  const constantFit = (id: string): string => {
    const next = `fit_5e7a9d10000040008000${String(fits.size + 1).padStart(12, '0')}`
    if (!fits.has(id)) fits.set(id, next)
    return fits.get(id)!
  }
  const hashes = new Map<string, string>()
  const constantHash = (hash: string): string => {
    const next = `5e7a9d10${String(hashes.size + 1).padStart(56, '0')}`
    if (!hashes.has(hash)) hashes.set(hash, next)
    return hashes.get(hash)!
  }
  return async (shown: Shown) => {
    const { operationId, method, path, body, status = 200, token, shorten } = shown
    const asked = request[method](path).set(shown.headers ?? {})
    if (token !== undefined) asked.auth(token, { type: 'bearer' })
    if (typeof body === 'string') asked.type('text/csv')
    const answer = await asked.send(body)
    const headers = {
      ...shown.headers,
      ...(typeof body === 'string' ? { 'content-type': 'text/csv' } : {}),
      ...(token === undefined ? {} : { authorization: 'Bearer …' }),
    }
    const { location } = answer.headers
    const shownBody = shorten === undefined ? answer.body : shorten(answer.body as never)
    const example = {
      request: { method: method.toUpperCase(), path, headers, body },
      answer: { status: answer.status, location, body: shownBody },
    }
    const text = `${JSON.stringify(example, sixDigits, 2)}\n`
      .replaceAll(/[0-9a-f]{8}-[0-9a-f]{4}-4[0-9a-f-]{21}/g, constantId)
      .replaceAll(/\d{4}-\d\d-\d\dT[\d:.]+Z/g, TIME)
      .replaceAll(/fit_[0-9a-f]{32}/g, constantFit)
      .replaceAll(/\b[0-9a-f]{64}\b/g, constantHash)
      .replaceAll(/\b20\d\d-\d\d-\d\d\.(\d+)/g, `${DAY}.$1`)
      .replaceAll(/ \(20\d\d\)/g, ` (${DAY.slice(0, 4)})`)
    expect(answer.status, text).toBe(status)
    await expect(text).toMatchFileSnapshot(new URL(`${operationId}.json`, FOLDER).pathname)
    return answer.body
  }
}

function sixDigits(_key: string, value: unknown) {
  return typeof value === 'number' ? Number(value.toPrecision(6)) : value
}
