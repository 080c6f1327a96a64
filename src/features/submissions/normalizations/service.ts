import { REFERENCE } from '../../../core/normalise/reference.ts'
import { METHOD_VERSION } from '../../../core/version.ts'
import type { Database } from '../../../db/client.ts'
import type { Normalization } from '../answer.ts'
import type { NewNormalization } from '../schema.ts'
import { withResults } from '../views.ts'
import { normalise } from './normalise.ts'

/** Normalises without storing anything: what was given, with the results. */
export async function normalizeOnly(db: Database, body: NewNormalization): Promise<Normalization> {
  const { setupIds, outcomes, warnings } = await normalise(db.pool, body)
  return {
    methodVersion: METHOD_VERSION,
    referenceId: REFERENCE.id,
    entries: body.entries.map((entry, index) => ({
      ...entry,
      setupId: setupIds[index] ?? undefined,
      runs: withResults(entry.runs, outcomes[index]!),
    })),
    warnings: [...warnings],
  }
}
