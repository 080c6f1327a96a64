/** Why the service cannot start, in one sentence for whoever starts it; no stack trace is worth more. */
export class StartFault extends Error {
  override readonly name = 'StartFault'
}

/** The `code` of an error of the system or of PostgreSQL (SQLSTATE), where it has one. */
export function errorCode(error: unknown): string | undefined {
  const code = (error as { code?: unknown } | null)?.code
  return typeof code === 'string' ? code : undefined
}

/** The message of whatever was thrown, without its stack. */
export function messageOf(error: unknown): string {
  return error instanceof Error && error.message !== '' ? error.message : String(error)
}
