import { ApiProblem } from '../../contract/problems.ts'
import type { Database } from '../../db/client.ts'
import { askDatabase } from './repository.ts'

/** Long enough for a busy database, short enough for whoever asks every few seconds. */
const PATIENCE_MS = 2_000

/**
 * Resolves when the database answers.
 *
 * @throws {ApiProblem} not-ready when it does not, or not in time
 */
export async function requireReady(db: Database, patienceMs = PATIENCE_MS): Promise<void> {
  let timer: NodeJS.Timeout | undefined
  const tooLate = new Promise<never>((_resolve, reject) => {
    timer = setTimeout(() => reject(new Error('no answer in time')), patienceMs)
  })
  try {
    await Promise.race([askDatabase(db), tooLate])
  } catch {
    throw new ApiProblem('not-ready', { detail: 'The database does not answer.' })
  } finally {
    clearTimeout(timer)
  }
}
