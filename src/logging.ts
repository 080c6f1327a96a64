import type { LoggerOptions } from 'pino'

import type { Config } from './config.ts'

/** Secrets, and what PostgreSQL quotes of a row when it refuses it. */
const NEVER_LOGGED = [
  ...['authorization', 'cookie', 'password', 'token', 'accessToken', 'refreshToken', 'apiKey'],
  ...['authorization', 'cookie', '["set-cookie"]'].flatMap(under('req.headers', 'res.headers')),
  ...['password', 'token', 'accessToken', 'refreshToken', 'apiKey'].flatMap(under('*', '*.*')),
  ...['detail', 'where', 'parameters', 'query', 'internalQuery', 'meta'].flatMap(under('err')),
]

/** One JSON line per event on the standard output, without secrets. */
export function loggerOptions({ logLevel }: Pick<Config, 'logLevel'>): LoggerOptions {
  return { level: logLevel, redact: { paths: NEVER_LOGGED, censor: '[redacted]' } }
}

function under(...parents: readonly string[]) {
  return (name: string) =>
    parents.map((parent) => (name.startsWith('[') ? `${parent}${name}` : `${parent}.${name}`))
}
