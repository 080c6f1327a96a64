import type { FastifyBaseLogger } from 'fastify'
import type { Pool } from 'pg'

import { METHOD_VERSION } from '../../core/version.ts'
import { normalise } from './normalizations/normalise.ts'
import { findUnnormalised, insertResults } from './repository.ts'
import { runsToStore } from './service.ts'

/** Revisions that are worked out between two looks at the database. */
const AT_ONCE = 100

/**
 * Works out by the method of today what was measured under an earlier one: adds results, rewrites none, so
 * nothing that was submitted drops out of the evidence when the method changes. What today's method refuses
 * keeps the results it has, and is told in the log.
 *
 * @returns how many revisions have results of today's method now that had none before
 */
export async function renormalise(
  pool: Pool,
  log: Pick<FastifyBaseLogger, 'info' | 'warn'>,
): Promise<number> {
  let done = 0
  let after: string | null = null
  for (;;) {
    const revisions = await findUnnormalised(pool, { method: METHOD_VERSION, after, most: AT_ONCE })
    for (const { id, body } of revisions) {
      try {
        const results = runsToStore(body, await normalise(pool, body))
        await insertResults(pool, id, results)
        done++
      } catch (error) {
        log.warn({ err: error, revision: id }, 'not worked out by the method of today')
      }
    }
    after = revisions.at(-1)?.id ?? null
    if (after === null) return done
    log.info({ submissions: done }, `working out by version ${METHOD_VERSION} of the method`)
  }
}
