import type { Equipment, FlightSession, Run, SoundLevelRun } from '../normalise/types.ts'
import type { FindingList } from './findings.ts'
import { DERIVED_LIMITS } from './limits.ts'
import { checkTipClearance } from './tip-clearance.ts'
import { withUnit } from './unit-mistakes.ts'

/** A battery counts as equally charged while its voltage changes by no more than this [1]. */
const EQUAL_VOLTAGE_RATIO = 0.05
/** Wind over a microphone above which it makes noise of its own [m/s]. */
const QUIET_WIND_MPS = 3

/**
 * Holds a run against its equipment and its own fields against one another.
 *
 * @param found where findings go
 * @param pointer JSON pointer of the run
 * @param given the run, the equipment and the session as submitted
 * @source METHOD.md, sections d, h and k
 */
export function checkRunFields(
  found: FindingList,
  pointer: string,
  given: {
    readonly run: Run
    readonly equipment: Equipment
    readonly session: FlightSession
  },
): void {
  const { run, equipment, session } = given
  checkDrive(found, pointer, run, equipment)
  if ('batteryStartV' in run || 'batteryEndV' in run) checkBattery(found, pointer, run)
  if (run.kind === 'tipClearance') checkTipClearance(found, pointer, run)
  if (run.kind === 'soundLevel') {
    checkMargin(found, pointer, run)
    checkPosition(found, pointer, run)
    if (run.position === 'distance') checkWind(found, session)
  }
}

function checkDrive(found: FindingList, pointer: string, run: Run, { drive }: Equipment): void {
  const electric = drive === 'electric'
  if (run.kind === 'fuelBurn' && electric) {
    const detail = 'An electric drive burns no fuel; give its energy as a run of kind energyUse.'
    found.refuse(`${pointer}/kind`, 'notForThisDrive', detail)
  }
  if (run.kind === 'energyUse' && !electric) {
    const detail =
      'Only an electric drive is measured by its energy; give the fuel as a run of kind fuelBurn.'
    found.refuse(`${pointer}/kind`, 'notForThisDrive', detail)
  }
  if ((run.kind !== 'climb' && run.kind !== 'staticPull') || electric) return
  for (const field of ['batteryStartV', 'batteryEndV'] as const) {
    if (run[field] === undefined) continue
    const detail = 'Only an electric drive has a battery to be measured.'
    found.refuse(`${pointer}/${field}`, 'notForThisDrive', detail)
  }
}

/** Battery state of charge dominates: runs compare only at about equal voltage. */
function checkBattery(
  found: FindingList,
  pointer: string,
  run: { readonly batteryStartV?: number | undefined; readonly batteryEndV?: number | undefined },
): void {
  const { batteryStartV, batteryEndV } = run
  if (batteryStartV === undefined || batteryEndV === undefined) return
  const change = (batteryEndV - batteryStartV) / ((batteryEndV + batteryStartV) / 2)
  if (Math.abs(change) <= EQUAL_VOLTAGE_RATIO) return
  const detail = `The battery went from ${withUnit(batteryStartV, 'V')} to ${withUnit(batteryEndV, 'V')}, more than 5 %: the run does not compare well with others.`
  found.warn(`${pointer}/batteryEndV`, 'batteryVoltageChanged', detail)
}

function checkMargin(found: FindingList, pointer: string, run: SoundLevelRun): void {
  if (run.backgroundDbA === undefined) return
  const margin = run.levelDbA - run.backgroundDbA
  const limit = DERIVED_LIMITS.backgroundMargin
  if (!(margin > limit.hard.min)) {
    const detail = `The background is ${withUnit(run.backgroundDbA, 'dB(A)')}; the level with the engine, ${withUnit(run.levelDbA, 'dB(A)')}, must lie above it.`
    found.refuse(`${pointer}/backgroundDbA`, 'outOfRange', detail)
  } else if (margin < limit.soft.min) {
    const detail = `Only ${withUnit(margin, 'dB')} above the background: no more than that of 6 dB is taken off, and the result is an upper bound.`
    found.warn(`${pointer}/backgroundDbA`, 'upperBound', detail)
  }
}

function checkPosition(found: FindingList, pointer: string, run: SoundLevelRun): void {
  if (run.position === 'pilotEar') {
    if (run.distanceM === undefined) return
    const detail = 'A level at the ear has no distance; ear and distance are never converted.'
    found.refuse(`${pointer}/distanceM`, 'notAtTheEar', detail)
  } else if (run.distanceM === undefined) {
    const detail = 'A level at a distance needs that distance.'
    found.refuse(`${pointer}/distanceM`, 'distanceMissing', detail)
  } else if (run.distanceM < DERIVED_LIMITS.ruledDistance.soft.min) {
    const detail = `Nearer than ${withUnit(DERIVED_LIMITS.ruledDistance.soft.min, 'm')} the distance rule does not hold: the level is kept as measured there and compares with no other.`
    found.warn(`${pointer}/distanceM`, 'tooNear', detail)
  }
}

function checkWind(found: FindingList, { conditions }: FlightSession): void {
  const { windMps } = conditions
  if (windMps === undefined || windMps <= QUIET_WIND_MPS) return
  const detail = `In more than ${QUIET_WIND_MPS} m/s of wind a microphone hears the wind.`
  found.warn('/conditions/windMps', 'windyMicrophone', detail)
}
