import { OutOfRangeError } from '../errors.ts'
import type { KnownSession } from '../normalise/inputs/known.ts'
import { type PreparedRun, prepareRun } from '../normalise/prepare.ts'
import { knownSession } from '../normalise/run.ts'
import { workOutSession } from '../normalise/session.ts'
import type { Findings, FlightSession, Run, SubmittedEntry } from '../normalise/types.ts'
import { crossCheck } from './cross-checks.ts'
import { checkBurn, checkClimb, climbHint } from './derived.ts'
import { checkFields } from './fields.ts'
import { FindingList } from './findings.ts'
import { checkEnergy, checkPropeller, checkPull } from './propulsion.ts'
import { checkLevelSpeed, checkSink, sinkHint } from './wing-runs.ts'

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
 * @source METHOD.md, section k
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
 * @source METHOD.md, section k
 */
export function inspect(session: FlightSession, entries: readonly SubmittedEntry[]): Inspection {
  const found = new FindingList()
  checkFields(found, session, entries)
  if (found.refusals.length > 0) return { found, prepared: null }
  const known = entries.map(({ entry, runs }) => ({
    known: knownSession(session, entry.allUpMassKg),
    runs,
  }))
  const worked = workOutSession(known, (ofEntry, run, { entryIndex, runIndex }) => {
    const pointer = `/entries/${entryIndex}/runs/${runIndex}`
    return checkedRun(found, pointer, { known: ofEntry, submitted: entries[entryIndex]!, run })
  })
  worked.forEach(({ runs }, index) => {
    crossCheck(found, `/entries/${index}/runs`, runs)
  })
  const prepared = worked.map(({ known, runs }) => ({
    known,
    runs: runs.filter((run) => run !== null),
  }))
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
    checkPrepared(found, pointer, prepared)
    return prepared
  } catch (error) {
    if (!(error instanceof OutOfRangeError)) throw error
    const { field, detail } = impossible(run)
    found.refuse(`${pointer}/${field}`, 'impossible', detail)
    return null
  }
}

/** What follows from a run, against its limits. */
function checkPrepared(found: FindingList, pointer: string, prepared: PreparedRun): void {
  if (prepared.kind === 'climb') checkClimb(found, pointer, prepared)
  if (prepared.kind === 'fuelBurn') checkBurn(found, pointer, prepared.burn)
  if (prepared.kind === 'energyUse') checkEnergy(found, pointer, prepared.energy)
  if (prepared.kind === 'staticPull') checkPull(found, pointer, prepared.pull)
  if (prepared.kind === 'sink') checkSink(found, pointer, prepared)
  if (prepared.kind === 'levelSpeed') checkLevelSpeed(found, pointer, prepared.speed)
  if (prepared.derived === undefined) return
  const rpm = `${pointer}/rpm`
  const thrust = prepared.kind === 'staticPull' ? `${pointer}/thrustN` : rpm
  checkPropeller(found, { rpm, thrust }, prepared.derived)
}

/** The field to look at first where the physics has no answer, and what to say. */
function impossible(run: Run): { readonly field: string; readonly detail: string } {
  switch (run.kind) {
    case 'climb': {
      const hint = climbHint(run.heightGainM / run.durationS, run)
      const detail = `No steady climb agrees with these figures: check height gain, time, mass and trim speed. ${hint}`
      return { field: 'heightGainM', detail: detail.trim() }
    }
    case 'fuelBurn':
      return { field: 'volumeMl', detail: `${NO_LEVEL_FLIGHT}volume, time and height change.` }
    case 'energyUse':
      return { field: 'energyWh', detail: `${NO_LEVEL_FLIGHT}energy, time and height change.` }
    case 'staticPull':
      return {
        field: 'thrustN',
        detail: 'No static thrust agrees with these figures: check pull, wind and angle.',
      }
    case 'soundLevel':
      return {
        field: 'levelDbA',
        detail: 'No source agrees with these levels: check level and background.',
      }
    case 'sink':
      return {
        field: 'heightLossM',
        detail:
          `No glide agrees with these figures: check height loss, time, mass and trim speed. ${sinkHint(run.heightLossM / run.durationS, run)}`.trim(),
      }
    case 'tipClearance':
      return {
        field: 'staticClearanceMm',
        detail: 'No clearance follows from these figures: check both gaps.',
      }
    case 'levelSpeed':
      return {
        field: 'legs',
        detail:
          'No single airspeed and wind follow from these legs: fly three or more headings that lie well over 60° apart, each from each, and not there and back on one line.',
      }
  }
}

const NO_LEVEL_FLIGHT = 'No level flight agrees with these figures: check '
