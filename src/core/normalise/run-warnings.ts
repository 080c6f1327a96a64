import { ASSUMED_LEVEL_HEIGHT } from './inputs/defaults.ts'
import type { KnownSession } from './inputs/known.ts'
import type { Equipment, Run, SoundLevelRun, StaticPullRun, Warning } from './types.ts'

/** What a run needs to know beside itself. */
export interface RunContext {
  readonly known: KnownSession
  readonly equipment: Equipment
  readonly at: { readonly entryIndex: number; readonly runIndex: number }
}

/**
 * What had to be assumed for a run: of air and wing where they bear on it, and of the run itself.
 *
 * @param run the run as submitted
 * @param context the session with its gaps filled, the equipment, and where the run stands
 * @returns the warnings, those of the session first
 * @source METHOD.md
 */
export function assumptionsOf(run: Run, context: RunContext): Warning[] {
  const { air, wing } = context.known
  const ofSession = {
    climb: [...air.warnings, ...wing.warnings],
    fuelBurn: [...air.warnings, ...wing.warnings],
    energyUse: [...air.warnings, ...wing.warnings],
    staticPull: air.warnings,
    soundLevel: [],
    sink: [...air.warnings, ...wing.warnings.filter(({ pointer }) => !OF_GLIDE.test(pointer))],
    levelSpeed: air.warnings,
    tipClearance: [],
  }[run.kind]
  return [...ofSession, ...ofRun(run, context)]
}

/** A sink run measures the glide ratio, so nothing about it has to be assumed. */
const OF_GLIDE = /^\/wing\/glide/

function ofRun(run: Run, { equipment, at, known }: RunContext): Warning[] {
  const pointer = `/entries/${at.entryIndex}/runs/${at.runIndex}`
  switch (run.kind) {
    case 'climb':
      return [
        ...(run.heightSource === 'unknown' ? [heightSourceUnknown(pointer)] : []),
        ...electricPower(pointer, equipment),
      ]
    case 'fuelBurn':
      return run.fuelTemperatureC === undefined ? [fuelTemperatureAssumed(pointer)] : []
    case 'energyUse':
      return []
    case 'staticPull':
      return [...headwindAssumed(run, pointer, known), ...electricPower(pointer, equipment)]
    case 'soundLevel':
      return soundAssumptions(run, pointer)
    case 'sink':
      return run.heightSource === 'unknown' ? [heightSourceUnknown(pointer)] : []
    case 'levelSpeed':
      return run.heightAboveSiteM === undefined ? [levelHeightAssumed(pointer)] : []
    case 'tipClearance':
      return []
  }
}

function heightSourceUnknown(pointer: string): Warning {
  return {
    pointer: `${pointer}/heightSource`,
    code: 'heightSourceUnknown',
    detail: 'How the height was read is not known: half of the barometric correction is applied.',
  }
}

function levelHeightAssumed(pointer: string): Warning {
  const { valueM, u } = ASSUMED_LEVEL_HEIGHT
  return {
    pointer: `${pointer}/heightAboveSiteM`,
    code: 'heightAssumed',
    detail: `No height given: ${valueM} m above the field is assumed, ±${u} m.`,
  }
}

function electricPower(pointer: string, { drive }: Equipment): Warning[] {
  if (drive !== 'electric') return []
  const detail =
    'How electric power follows the air is not known: halfway between limited in power and limited in speed is taken. Compare electric runs only at equal charge of the battery.'
  return [{ pointer, code: 'electricPowerAssumed', detail }]
}

function fuelTemperatureAssumed(pointer: string): Warning {
  return {
    pointer: `${pointer}/fuelTemperatureC`,
    code: 'fuelTemperatureAssumed',
    detail: 'No fuel temperature given: that of the air is assumed.',
  }
}

function headwindAssumed(
  run: StaticPullRun,
  pointer: string,
  { windMps }: KnownSession,
): Warning[] {
  if (run.headwindMps !== undefined) return []
  const detail =
    windMps === undefined
      ? 'No headwind given: calm is assumed, ±1 m/s.'
      : 'No headwind given: the wind at the field is taken to come from anywhere.'
  return [{ pointer: `${pointer}/headwindMps`, code: 'headwindAssumed', detail }]
}

function soundAssumptions(run: SoundLevelRun, pointer: string): Warning[] {
  const warnings: Warning[] = []
  if (run.backgroundDbA === undefined) {
    warnings.push({
      pointer: `${pointer}/backgroundDbA`,
      code: 'backgroundAssumed',
      detail: 'No background level given: it is assumed to add nothing.',
    })
  }
  if (run.instrument === undefined) {
    warnings.push({
      pointer: `${pointer}/instrument`,
      code: 'instrumentAssumed',
      detail: 'What read the level is not given: it is treated as a phone.',
    })
  }
  if (run.position === 'distance' && run.directionDeg === undefined) {
    warnings.push({
      pointer: `${pointer}/directionDeg`,
      code: 'directionNotGiven',
      detail: 'A propeller is not equally loud all round: give the direction of the microphone.',
    })
  }
  return warnings
}
