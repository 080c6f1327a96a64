import { execFile } from 'node:child_process'

/** Whose rights a child process has; empty: those of this process. */
export interface RunAs {
  readonly uid?: number
  readonly gid?: number
}

export interface RunResult {
  readonly ok: boolean
  /** What it printed on both streams, trimmed. */
  readonly output: string
}

/** Nothing of this process's environment may steer PostgreSQL (PGDATA, PGPORT, a locale). */
const CLEAN = { PATH: '/usr/local/sbin:/usr/local/bin:/usr/sbin:/usr/bin:/sbin:/bin', LC_ALL: 'C' }

/** Runs a program to its end. Its failure is a result; a program that cannot be started is one too. */
export function run(program: string, args: readonly string[], as: RunAs = {}): Promise<RunResult> {
  const windows = process.platform === 'win32'
  const options = { ...as, ...(windows ? {} : { env: CLEAN, cwd: '/' }) }
  return new Promise((resolve) => {
    execFile(program, args, options, (error, stdout, stderr) => {
      const printed = `${stdout}${stderr}`.trim()
      resolve({ ok: error === null, output: printed || (error?.message ?? '') })
    })
  })
}
