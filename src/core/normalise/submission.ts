import { heightSourceWarnings } from '../plausibility/cross-checks.ts'
import { inspect } from '../plausibility/faults.ts'
import { repeatWarnings } from '../plausibility/repeats.ts'
import { normalisePrepared } from './run.ts'
import type { FlightSession, SubmissionOutcome, SubmittedEntry, Warning } from './types.ts'

/**
 * Takes a whole submission to the reference state, or says why not. Never throws for any numbers in
 * it.
 *
 * @param session the session as submitted
 * @param entries its entries with what the catalogue knows of their equipment
 * @returns refusals; warnings of the whole submission, those of single runs among them;
 *   `outcomes[entry][run]`, each with its own warnings, or null where something was refused
 * @source METHOD.md
 */
export function normaliseSubmission(
  session: FlightSession,
  entries: readonly SubmittedEntry[],
): SubmissionOutcome {
  const { found, prepared } = inspect(session, entries)
  const { refusals, warnings } = found
  if (prepared === null) return { refusals, warnings, outcomes: null }

  const outcomes = prepared.map(({ known, runs }, entryIndex) => {
    const { equipment } = entries[entryIndex]!
    const bare = runs.map((run, runIndex) =>
      normalisePrepared(run, { known, equipment, at: { entryIndex, runIndex } }),
    )
    const pointer = `/entries/${entryIndex}/runs`
    const doubts = [...repeatWarnings(bare, pointer), ...heightSourceWarnings(runs, bare, pointer)]
    for (const doubt of doubts) found.warn(doubt.pointer, doubt.code, doubt.detail)
    return bare
  })
  for (const { pointer, code, detail } of outcomes.flat().flatMap((one) => one.warnings)) {
    found.warn(pointer, code, detail)
  }
  const further = byRun(warnings)
  return {
    refusals,
    warnings,
    outcomes: outcomes.map((runs, entryIndex) =>
      runs.map((outcome, runIndex) => {
        const ofRun = further.get(`/entries/${entryIndex}/runs/${runIndex}`) ?? []
        return { ...outcome, warnings: [...outcome.warnings.filter(isOfSession), ...ofRun] }
      }),
    ),
  }
}

const RUN_POINTER = /^\/entries\/\d+\/runs\/\d+/

/** The warnings that point at a run or into it, by the pointer of the run. */
function byRun(warnings: readonly Warning[]): ReadonlyMap<string, Warning[]> {
  const groups = new Map<string, Warning[]>()
  for (const warning of warnings) {
    const run = RUN_POINTER.exec(warning.pointer)?.[0]
    if (run === undefined) continue
    const group = groups.get(run)
    if (group === undefined) groups.set(run, [warning])
    else group.push(warning)
  }
  return groups
}

/** Warnings of the session stand with every run that they bear on. */
function isOfSession({ pointer }: Warning): boolean {
  return !RUN_POINTER.test(pointer)
}
