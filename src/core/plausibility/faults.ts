import { OutOfRangeError } from '../errors.ts'
import type { KnownSession } from '../normalise/inputs/known.ts'
import { knownSession, type PreparedRun, prepareRun } from '../normalise/run.ts'
import type { Findings, FlightSession, Run, SubmittedEntry } from '../normalise/types.ts'
import { checkBurn, checkClimb, climbHint } from './derived.ts'
import { checkFields } from './fields.ts'
import { FindingList } from './findings.ts'

/** Findings, and the runs worked out where nothing was refused. */
export interface Inspection {
  readonly found: FindingList
  readonly prepared: readonly PreparedEntry[] | null
}

export interface PreparedEntry {
  readonly known: KnownSession
  readonly runs: readonly PreparedRun[]
}

/**
 * Finds what is wrong or doubtful in a submission. Never throws for any numbers in it.
 *
 * @param session the session as submitted
 * @param entries its entries with what the catalogue knows of their equipment
 * @returns refusals and warnings, with JSON pointers into the submission body
 * @source normalisation specification 1, section k
 */
export function findFaults(session: FlightSession, entries: readonly SubmittedEntry[]): Findings {
  const { refusals, warnings } = inspect(session, entries).found
  return { refusals, warnings }
}

/**
 * Checks fields first; where none is refused, works out every run and checks what follows from it.
 *
 * @param session the session as submitted
 * @param entries its entries with what the catalogue knows of their equipment
 * @returns findings, and the runs worked out unless something was refused
 * @source normalisation specification 1, section k
 */
export function inspect(session: FlightSession, entries: readonly SubmittedEntry[]): Inspection {
  const found = new FindingList()
  checkFields(found, session, entries)
  if (found.refusals.length > 0) return { found, prepared: null }
  const prepared = entries.map((submitted, entryIndex) => {
    const known = knownSession(session, submitted.entry.allUpMassKg)
    const runs = submitted.runs.map((run, runIndex) => {
      const pointer = `/entries/${entryIndex}/runs/${runIndex}`
      return checkedRun(found, pointer, { known, submitted, run })
    })
    return { known, runs: runs.filter((run) => run !== null) }
  })
  return { found, prepared: found.refusals.length > 0 ? null : prepared }
}

/** One run worked out and checked; null, with a refusal, where the physics has no answer. */
function checkedRun(
  found: FindingList,
  pointer: string,
  given: { readonly known: KnownSession; readonly submitted: SubmittedEntry; readonly run: Run },
): PreparedRun | null {
  const { known, submitted, run } = given
  try {
    const prepared = prepareRun(known, { ...submitted, run })
    if (prepared.kind === 'climb') {
      checkClimb(found, pointer, { climb: prepared.climb, run: prepared.run })
    } else checkBurn(found, pointer, prepared.burn)
    return prepared
  } catch (error) {
    if (!(error instanceof OutOfRangeError)) throw error
    const field = run.kind === 'climb' ? 'heightGainM' : 'volumeMl'
    found.refuse(`${pointer}/${field}`, 'impossible', impossible(run))
    return null
  }
}

function impossible(run: Run): string {
  if (run.kind === 'climb') {
    const hint = climbHint(run.heightGainM / run.durationS, run)
    return `No steady climb agrees with these figures: check height gain, time, mass and trim speed. ${hint}`.trim()
  }
  return 'No level flight agrees with these figures: check volume, time and height change.'
}
