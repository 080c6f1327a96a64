import { Writable } from 'node:stream'

import { pino } from 'pino'
import { describe, expect, it } from 'vitest'

import { loggerOptions } from '../src/logging.ts'

/** What is written for one event. */
function logged(event: object): string {
  let text = ''
  const stream = new Writable({
    write(chunk, _encoding, done) {
      text += chunk
      done()
    },
  })
  pino(loggerOptions({ logLevel: 'info' }), stream).info(event, 'event')
  return text
}

describe('the log', () => {
  it.each([
    ['a header', { req: { headers: { authorization: 'Bearer hidden' } } }],
    ['a cookie', { req: { headers: { cookie: 'a=hidden' } } }],
    ['a cookie that is set', { res: { headers: { 'set-cookie': 'a=hidden' } } }],
    ['a password', { password: 'hidden' }],
    ['a password in a body', { body: { email: 'a@example.org', password: 'hidden' } }],
    ['a token', { body: { refreshToken: 'hidden' } }],
    ['a token deeper down', { answer: { body: { accessToken: 'hidden' } } }],
    ['a row that the database refused', { err: { message: 'refused', detail: 'hidden' } }],
  ])('hides %s', (_what, event) => {
    const text = logged(event)
    expect(text).not.toContain('hidden')
    expect(text).toContain('[redacted]')
  })

  it('shows what is no secret', () => {
    expect(JSON.parse(logged({ fit: 'fit_1', runs: 3 }))).toMatchObject({
      fit: 'fit_1',
      runs: 3,
      msg: 'event',
    })
  })
})
