import { cautionsForRuns, doNotFly, touched } from '../../../contract/cautions.ts'
import { REFERENCE } from '../../../core/normalise/reference.ts'
import { METHOD_VERSION } from '../../../core/version.ts'
import type { Database } from '../../../db/client.ts'
import type { Normalization } from '../answer.ts'
import { worstFinding } from '../safety/findings.ts'
import { findGrounded } from '../safety/repository.ts'
import type { NewNormalization } from '../schema.ts'
import { withResults } from '../views.ts'
import { crossCheck } from './cross-check.ts'
import { normalise } from './normalise.ts'

/** Normalises without storing anything: what was given, with the results, cross-checked if asked. */
export async function normalizeOnly(
  db: Database,
  body: NewNormalization,
  asked: { readonly crossCheck: boolean },
): Promise<Normalization> {
  const normalised = await normalise(db.pool, body)
  const { setupIds, outcomes, warnings } = normalised
  const checks = asked.crossCheck
    ? await crossCheck(normalised.asked.session, normalised.asked.entries)
    : null
  return {
    methodVersion: METHOD_VERSION,
    referenceId: REFERENCE.id,
    entries: body.entries.map((entry, index) => ({
      ...entry,
      setupId: setupIds[index] ?? undefined,
      runs: withResults(entry.runs, outcomes[index]!).map((run, runIndex) =>
        checks === null ? run : { ...run, crossCheck: checks[index]![runIndex]! },
      ),
    })),
    warnings: [...warnings],
    cautions: [...(await groundedIn(db, body, setupIds)), ...cautionsForRuns(kindsIn(body))],
  }
}

function kindsIn({ entries }: NewNormalization): string[] {
  return entries.flatMap(({ runs }) => runs.map(({ kind }) => kind))
}

/** What must not be flown: set-ups reported unsafe, and those that touched in these very runs. */
async function groundedIn(
  db: Database,
  { entries }: NewNormalization,
  setupIds: readonly (string | null)[],
): Promise<string[]> {
  const known = setupIds.filter((id) => id !== null)
  const reported = await findGrounded(db.pool, known)
  const touching = entries.flatMap(({ runs }, index) => {
    const id = setupIds[index] ?? null
    if (worstFinding(runs)?.state !== 'doNotFly' || (id !== null && reported.includes(id)))
      return []
    return [touched(id === null ? `the set-up of entry ${index}` : `set-up ${id}`)]
  })
  return [...reported.map((id) => doNotFly(`set-up ${id}`)), ...touching]
}
