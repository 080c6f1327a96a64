import { OutOfRangeError } from '../errors.ts'
import {
  type Model,
  type Propagation,
  propagate,
  type UncertainInput,
} from '../uncertainty/propagate.ts'
import { airAbove } from './inputs/air.ts'
import type { KnownSession } from './inputs/known.ts'
import { type Link, linkedValue, linkInput } from './inputs/linked.ts'
import { type MeasuredFigure, measuredFigure, wholeRatio } from './inputs/own-figure.ts'
import { inOrder, standsAt, valuesOf } from './inputs/vector.ts'
import type { Air } from './model/air.ts'
import { barometricGainRatio } from './model/barometric-gain.ts'
import { glideRatioOf, sameWingAtReferenceMps } from './model/same-wing.ts'
import { levelTrimSpeedMps, STEEPEST_CLIMB_RATIO, sinClimbAngle } from './model/trim-speed.ts'
import { answeringNaN, budgetOf, OUTPUTS, VALUE } from './outcome.ts'
import { SINK_INPUTS, sinkInputs, X } from './sink-inputs.ts'
import type { FlownEntry, Normalized, SinkRun } from './types.ts'

/** Second output of the model: ln G. */
const LOG_GLIDE = 1

interface SinkContext {
  readonly pressureIsQnh: boolean
  readonly trim: Link
}

/** What happened in a glide with the engine off, worked out from the readings. */
export interface FlownSink {
  readonly air: Air
  /** Through the air [m/s]. */
  readonly sinkRateMps: number
  /** Airspeed along the path [m/s]. */
  readonly airspeedMps: number
  readonly glideRatio: number
  /** Of the same wing at the reference mass and density [m/s]. */
  readonly referenceSinkMps: number
}

/** Positions of the inputs that the air in the middle of the glide follows from. */
const AIR_POSITIONS = [
  X.heightLossM,
  X.elevationM,
  X.temperatureC,
  X.lapseKPerM,
  X.pressureHPa,
  X.relativeHumidityPct,
  X.startHeightM,
] as const

/** One sink run with everything filled in and worked out. */
export interface PreparedSink {
  readonly inputs: readonly UncertainInput[]
  readonly context: SinkContext
  readonly flown: FlownSink
}

/**
 * Gathers the inputs of a sink run and works out what happened in it.
 *
 * @param known air and wing of the session, gaps filled
 * @param submitted entry and run as submitted
 * @returns the glide, ready for {@link normaliseSink}
 * @throws {OutOfRangeError} if the wing can't have sunk so fast at its trim speed, or the readings lie
 *   outside the physics
 * @source METHOD.md, sections c, d and j
 */
export function prepareSink(
  known: KnownSession,
  submitted: { readonly entry: FlownEntry; readonly run: SinkRun },
): PreparedSink {
  const named = sinkInputs(known, submitted)
  const shared = known.wing.trimShared
  const { input, link } = linkInput(named, { names: SINK_INPUTS, name: 'trimSpeedMps', shared })
  const inputs = inOrder(SINK_INPUTS, { ...named, trimSpeedMps: input })
  const context = { pressureIsQnh: known.air.pressureIsQnh, trim: link }
  return { inputs, context, flown: flySink(valuesOf(inputs), context) }
}

/**
 * Sink rate at the reference state and the glide ratio of the system, with their uncertainties.
 *
 *     Vs = Δh/t + w,  Vs_ref = Vs·√[(m_ref/m)(ρ/ρ0)];   G = √((V/Vs)² − 1)
 *
 * @param sink what {@link prepareSink} gave
 * @returns sink rate [m/s] of the same wing at the reference state, glide ratio as flown [1]; no
 *   evidence, because a glide says nothing of engine and propeller
 * @source METHOD.md, sections d and j
 */
export function normaliseSink(sink: PreparedSink): {
  readonly normalized: Normalized
  readonly evidence: null
} {
  const { inputs, flown } = sink
  const propagation = propagate(inputs, OUTPUTS, sinkModel(sink))
  return {
    normalized: {
      metric: 'sinkRate',
      value: flown.referenceSinkMps,
      unit: 'm/s',
      ...budgetOf(inputs, propagation),
      glideRatio: flown.glideRatio,
      glideRatioStandardUncertainty: flown.glideRatio * wholeRatio(glideIn(propagation)),
    },
    evidence: null,
  }
}

/**
 * Glide ratio of a sink run, with what its error shares with other runs of the session.
 *
 * @param sink what {@link prepareSink} gave
 * @returns ln G and its uncertainties [1], for climbs and burns of the session
 * @source METHOD.md, sections d and j
 */
export function glideShownBy(sink: PreparedSink): MeasuredFigure {
  return glideIn(propagate(sink.inputs, OUTPUTS, sinkModel(sink)))
}

function glideIn(propagation: Propagation): MeasuredFigure {
  return measuredFigure(SINK_INPUTS, propagation, { output: LOG_GLIDE, outputs: OUTPUTS })
}

/**
 * The model of a sink run: sink rate at the reference state [m/s] and ln G.
 *
 * @source METHOD.md, section d
 */
export function sinkModel({ inputs, context, flown: nominalFlight }: PreparedSink): Model {
  return answeringNaN((x, y) => {
    const knownAir = standsAt(inputs, x, AIR_POSITIONS) ? nominalFlight.air : undefined
    const flown = flySink(x, context, knownAir)
    y[VALUE] = flown.referenceSinkMps
    y[LOG_GLIDE] = Math.log(flown.glideRatio)
  })
}

/** From readings to sink rate and glide ratio: sections c, d.1 and d.8 of the specification. */
function flySink(x: Float64Array, { pressureIsQnh, trim }: SinkContext, knownAir?: Air): FlownSink {
  const air = knownAir ?? airOfSink(x, pressureIsQnh)
  const allUpMassKg = x[X.allUpMassKg]!
  const full = barometricGainRatio(air.virtualTemperatureK, air.pressurePa)
  const lossRatio = x[X.gainScale]! * (1 + x[X.barometricShare]! * (full - 1))
  // Rising air slows the descent that is seen.
  const airMps = x[X.ownAirMps]! + x[X.sessionAirMps]!
  const sinkRateMps = (x[X.heightLossM]! * lossRatio) / x[X.durationS]! + airMps

  const level = { speedMps: linkedValue(x, trim), atAllUpMassKg: x[X.trimMassKg]! }
  const levelMps = levelTrimSpeedMps(level, allUpMassKg, air.densityKgPerM3)
  const sin = sinClimbAngle(sinkRateMps / levelMps)
  const airspeedMps = levelMps * Math.sqrt(Math.sqrt(1 - sin * sin))
  const glideRatio = glideRatioOf(airspeedMps, sinkRateMps)
  if (!(glideRatio > 0 && sinkRateMps > 0)) {
    const ratio = sinkRateMps / levelMps
    throw new OutOfRangeError('sinkRateMps / levelAirspeedMps', ratio, 0, STEEPEST_CLIMB_RATIO)
  }
  return {
    air,
    sinkRateMps,
    airspeedMps,
    glideRatio,
    referenceSinkMps: sameWingAtReferenceMps(sinkRateMps, allUpMassKg, air.densityKgPerM3),
  }
}

/** The air in the middle of the glide. */
function airOfSink(x: Float64Array, pressureIsQnh: boolean): Air {
  const field = {
    elevationM: x[X.elevationM]!,
    temperatureC: x[X.temperatureC]!,
    lapseKPerM: x[X.lapseKPerM]!,
    pressureHPa: x[X.pressureHPa]!,
    relativeHumidityPct: x[X.relativeHumidityPct]!,
  }
  return airAbove(field, x[X.startHeightM]! - x[X.heightLossM]! / 2, pressureIsQnh)
}
