import type { KnownSession } from './inputs/known.ts'
import { type OwnFigure, wholeRatio } from './inputs/own-figure.ts'
import type { KnownWing } from './inputs/wing.ts'
import { REFERENCE } from './reference.ts'
import type { Warning } from './types.ts'

/** How many standard uncertainties a stated and a flown figure may lie apart. */
const COVERAGE = 3

/**
 * Lets the trim speed that the level legs of a session show take the place of the one given with the
 * wing, where its own uncertainty is the smaller.
 *
 * @param known the session with its gaps filled
 * @param trim airspeed at the reference mass and density [m/s], from runs flown at trim
 * @returns the session with the better trim speed, and a note of it among the wing's warnings
 * @source METHOD.md, section g; the rule is ours
 */
export function withOwnTrim(known: KnownSession, trim: OwnFigure): KnownSession {
  const { wing } = known
  const stated = wing.trimSpeedMps
  const name = 'The trim speed of this session'
  const shown = `${rounded(trim.value)} m/s at ${REFERENCE.allUpMassKg} kg in standard air at sea level`
  const uncertainty = percent(wholeRatio(trim))
  if (!isBetter(trim, stated)) {
    const detail = `The level legs give a trim speed of ${shown} (u ${uncertainty}), less certain than the one given or assumed, which stays.`
    return withNote(known, { pointer: TRIM, code: 'trimSpeedKept', detail })
  }
  const detail = `${name} is that of its level legs: ${shown} (u ${uncertainty}).`
  const note = { pointer: TRIM, code: 'trimSpeedFromLegs', detail }
  const massRatio = REFERENCE.allUpMassKg / wing.trimMassKg.value
  const statedThere = stated.value * Math.sqrt(massRatio)
  const better: KnownWing = {
    ...wing,
    trimSpeedMps: {
      source: 'trim speed from the level legs',
      value: trim.value,
      standardUncertainty: trim.value * trim.ownRatio,
      sharedWithinSession: true,
    },
    trimMassKg: {
      source: 'mass at the trim speed',
      value: REFERENCE.allUpMassKg,
      standardUncertainty: 0,
      sharedWithinSession: true,
    },
    trimShared: trim.shared,
    warnings: wing.warnings.filter(({ pointer }) => !pointer.startsWith('/wing/trim')),
  }
  const given = !wing.warnings.some(({ code }) => code === 'trimSpeedAssumed')
  const apart = {
    ...stated,
    value: statedThere,
    standardUncertainty: relative(stated) * statedThere,
  }
  const doubts = given ? doubtsOf(trim, apart, TRIM_DISAGREES) : []
  return withNote({ ...known, wing: better }, note, ...doubts)
}

/**
 * Lets the glide ratio that the sink runs of a session show take the place of the one given with the
 * wing, where its own uncertainty is the smaller.
 *
 * @param known the session with its gaps filled, its own trim speed in place
 * @param glide glide ratio of the whole system [1], from the sink runs of the session
 * @returns the session with the better glide ratio, and a note of it among the wing's warnings
 * @source METHOD.md, section d; the rule is ours
 */
export function withOwnGlide(known: KnownSession, glide: OwnFigure): KnownSession {
  const { wing } = known
  const stated = wing.glideRatio
  const shown = `${rounded(glide.value)} (u ${percent(wholeRatio(glide))})`
  if (!isBetter(glide, stated)) {
    const detail = `The sink runs give a glide ratio of ${shown}, less certain than the one given or assumed, which stays. More sink runs, or calmer air, would make it count.`
    return withNote(known, { pointer: GLIDE, code: 'glideKept', detail })
  }
  const detail = `The glide ratio of this session is that of its sink runs: ${shown}, pilot and cage included.`
  const note = { pointer: GLIDE, code: 'glideFromSink', detail }
  const better: KnownWing = {
    ...wing,
    glideRatio: {
      source: 'glide ratio from the sink runs',
      value: glide.value,
      standardUncertainty: glide.value * glide.ownRatio,
      sharedWithinSession: true,
    },
    glideShared: glide.shared,
    warnings: wing.warnings.filter(({ pointer }) => !pointer.startsWith('/wing/glide')),
  }
  const given = !wing.warnings.some(({ code }) => code === 'glideAssumed')
  const doubts = given ? doubtsOf(glide, stated, GLIDE_DISAGREES) : []
  return withNote({ ...known, wing: better }, note, ...doubts)
}

const TRIM = '/wing/trimSpeedMps'
const GLIDE = '/wing/glideRatio'
const TRIM_DISAGREES = {
  pointer: TRIM,
  code: 'trimSpeedDisagrees',
  detail:
    'The trim speed given with the wing and the one flown in this session differ by more than their uncertainties explain. Was the speed system in use, or another trim setting?',
}
const GLIDE_DISAGREES = {
  pointer: GLIDE,
  code: 'glideDisagrees',
  detail:
    'The glide ratio given with the wing and the one flown in this session differ by more than their uncertainties explain. Was the air rising or sinking, or the trim another?',
}

type Stated = Pick<KnownWing['glideRatio'], 'value' | 'standardUncertainty'>

/**
 * What a flown figure shares with the runs that use it (air, mass, trim speed) is in their budgets in
 * any case and largely cancels there; so its own uncertainty is what is held against the stated one.
 */
function isBetter(own: OwnFigure, stated: Stated): boolean {
  return own.ownRatio < relative(stated)
}

function relative({ value, standardUncertainty }: Stated): number {
  return standardUncertainty / value
}

function doubtsOf(own: OwnFigure, stated: Stated, doubt: Warning): Warning[] {
  const apart = Math.abs(Math.log(own.value / stated.value))
  const allowed = COVERAGE * Math.hypot(wholeRatio(own), relative(stated))
  return apart > allowed ? [doubt] : []
}

function withNote(known: KnownSession, ...notes: readonly Warning[]): KnownSession {
  const { wing } = known
  return { ...known, wing: { ...wing, warnings: [...wing.warnings, ...notes] } }
}

function rounded(value: number): string {
  return String(Number(value.toPrecision(3)))
}

function percent(ratio: number): string {
  return `${(100 * ratio).toPrecision(2)} %`
}
