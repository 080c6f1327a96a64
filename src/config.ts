import { z } from 'zod'

const onOff = (fallback: boolean) =>
  z
    .enum(['on', 'off'])
    .default(fallback ? 'on' : 'off')
    .transform((value) => value === 'on')

/** The environment the service reads, all of it. Listed for people in README.md and .env.example. */
const Environment = z.object({
  DATABASE_URL: z
    .url({ protocol: /^postgres(ql)?$/, error: 'must be a postgresql:// URL' })
    .optional()
    .describe('PostgreSQL 15 or newer; unset: an embedded one in DATA_DIR'),
  DATA_DIR: z.string().min(1).default('./data').describe('Folder of the embedded database'),
  PORT: z.coerce.number().int().min(0).max(65_535).default(8080).describe('TCP port to listen on'),
  HOST: z.string().min(1).default('127.0.0.1').describe('Address to listen on'),
  LOG_LEVEL: z
    .enum(['fatal', 'error', 'warn', 'info', 'debug', 'trace', 'silent'])
    .default('info')
    .describe('How much is logged'),
  DEMO_DATA: z
    .enum(['on', 'off'])
    .optional()
    .describe(
      'Load the demo into an empty database; on by default for the embedded one, off otherwise',
    ),
  RATE_LIMIT: onOff(true).describe('Limit requests per address'),
  ADMIN_EMAIL: z.email().optional().describe('E-mail of the first administrator'),
  ADMIN_PASSWORD: z
    .string()
    .min(12)
    .max(200)
    .optional()
    .describe('Password of the first administrator'),
  TRUST_PROXY: onOff(false).describe('Take the client address from X-Forwarded-For'),
  DATASET_EVERY_DAYS: z.coerce
    .number()
    .positive()
    .max(3650)
    .optional()
    .describe('Days between scheduled releases of the dataset; unset: only those asked for'),
})

export interface Config {
  readonly databaseUrl: string | undefined
  readonly dataDir: string
  readonly port: number
  readonly host: string
  readonly logLevel: 'fatal' | 'error' | 'warn' | 'info' | 'debug' | 'trace' | 'silent'
  readonly demoData: boolean
  readonly rateLimit: boolean
  readonly admin: { readonly email: string; readonly password: string } | undefined
  readonly trustProxy: boolean
  readonly datasetEveryDays: number | undefined
}

/** Every fault of the environment at once. */
export class ConfigError extends Error {
  override readonly name = 'ConfigError'
  readonly faults: readonly string[]

  constructor(faults: readonly string[]) {
    super(
      `The configuration has ${faults.length} fault(s):\n${faults.map((f) => `  ${f}`).join('\n')}`,
    )
    this.faults = faults
  }
}

/**
 * Checks the environment once; the result is frozen and handed down.
 *
 * @throws {ConfigError} listing every fault
 */
export function loadConfig(env: Readonly<Record<string, string | undefined>>): Config {
  const set = Object.fromEntries(Object.entries(env).filter(([, value]) => value !== ''))
  const parsed = Environment.safeParse(set)
  const faults = parsed.success
    ? []
    : parsed.error.issues.map((issue) => `${issue.path.join('.')}: ${issue.message}`)
  if ((set.ADMIN_EMAIL === undefined) !== (set.ADMIN_PASSWORD === undefined)) {
    faults.push('ADMIN_EMAIL and ADMIN_PASSWORD: set both or neither')
  }
  if (!parsed.success || faults.length > 0) throw new ConfigError(faults)
  const e = parsed.data
  return Object.freeze({
    databaseUrl: e.DATABASE_URL,
    dataDir: e.DATA_DIR,
    port: e.PORT,
    host: e.HOST,
    logLevel: e.LOG_LEVEL,
    demoData: e.DEMO_DATA === undefined ? e.DATABASE_URL === undefined : e.DEMO_DATA === 'on',
    rateLimit: e.RATE_LIMIT,
    admin:
      e.ADMIN_EMAIL !== undefined && e.ADMIN_PASSWORD !== undefined
        ? { email: e.ADMIN_EMAIL, password: e.ADMIN_PASSWORD }
        : undefined,
    trustProxy: e.TRUST_PROXY,
    datasetEveryDays: e.DATASET_EVERY_DAYS,
  })
}

/** Names, defaults and meaning of every variable, for the check that README.md and .env.example list them all. */
export const ENVIRONMENT_NAMES: readonly string[] = Object.keys(Environment.shape)
