import { climbAt } from '../normalise/predict.ts'
import { stateOf } from './asked.ts'
import { type ForecastContext, forecast, PREDICTED, type Predicted } from './forecast.ts'
import { type Basis, type PredictionQuestion, refusalOfEvidence } from './question.ts'
import { notPredicted, type PredictionRefusal } from './refusal.ts'
import { type Scale, type SpreadValue, spreadOf } from './spread.ts'
import { unknownsOf } from './unknowns.ts'

/** A predicted quantity, or why there is none. */
export type Prediction =
  | (SpreadValue & {
      readonly refusal: null
      /** For what one pilot sees on one evening; null where no flights stand behind the quantity. */
      readonly interval95NextEvening: readonly [number, number] | null
    })
  | { readonly refusal: PredictionRefusal }

export type Predictions = Readonly<Record<Predicted, Prediction>>

interface Facts {
  /** How distances combine, see `spreadOf`. */
  readonly scale: Scale
  /** The fit behind it; none: it follows from air, wing and catalogue alone. */
  readonly basis?: Basis
  /** True where a value below zero has no meaning although differences combine. */
  readonly isFloored?: true
}

const FACTS: Readonly<Record<Predicted, Facts>> = {
  climbRate: { scale: 'difference', basis: 'inducedPower' },
  climbThrust: { scale: 'ratio', basis: 'inducedPower' },
  climbAngle: { scale: 'difference', basis: 'inducedPower' },
  airspeed: { scale: 'ratio' },
  fuelFlow: { scale: 'ratio', basis: 'fuelFlow' },
  litresPer100Km: { scale: 'ratio', basis: 'fuelFlow' },
  electricPower: { scale: 'ratio', basis: 'electricPower' },
  staticThrust: { scale: 'ratio', basis: 'staticThrust' },
  endurance: { scale: 'difference', basis: 'fuelFlow', isFloored: true },
  range: { scale: 'difference', basis: 'fuelFlow', isFloored: true },
  densityAltitude: { scale: 'difference' },
  fullThrottlePowerRatio: { scale: 'ratio' },
  engineRpm: { scale: 'ratio' },
  propellerRpm: { scale: 'ratio' },
  tipMach: { scale: 'ratio' },
}

/**
 * The fit a predicted quantity rests on; null where it follows from air, wing and catalogue alone.
 *
 * @param name the quantity
 * @returns the basis
 * @source derived
 */
export function basisOf(name: Predicted): Basis | null {
  return FACTS[name].basis ?? null
}

/**
 * What a setup will do at the caller's own mass, wing, air and tank.
 *
 * The unknowns are the fits' estimates (Student's t), the caller's own, and what the models leave out
 * between reference and conditions (engine power: 0.15·|1 − φ|; part load: see `partLoadError` and
 * `mixtureError`). They are taken as independent: errors that the flights behind a fit share with this prediction, such as
 * the allowance on catalogue glide ratios, partly cancel in truth, so the intervals are on the wide
 * side. A further evening adds the variances of pilots, sessions and cells.
 *
 * @param question setup, complete conditions and the fits
 * @returns every quantity with standard uncertainty (k = 1), 95 % interval of the mean and for a next
 *   evening, and budget; or a refusal with its reason
 * @throws {OutOfRangeError} if mass, wing or air lie outside what the model is valid for
 * @source JCGM 100:2008 (GUM); the formulas are those of `forecast` and `spreadOf`
 */
export function predictSetup(question: PredictionQuestion): Predictions {
  const context = contextOf(question)
  const scales = PREDICTED.map((name) => FACTS[name].scale)
  const spread = (about: 'mean' | 'nextSession') =>
    spreadOf(unknownsOf(question, about), (x) => forecast(x, context), scales)
  const means = spread('mean')
  const nexts = spread('nextSession')
  const predictions = PREDICTED.map((name, k): [Predicted, Prediction] => {
    const refusal = refusalOf(question, name) ?? refusalOfValue(name, means[k]!.value)
    if (refusal !== null) return [name, { refusal }]
    const next = FACTS[name].basis === undefined ? null : floored(name, nexts[k]!.interval95)
    const interval95 = floored(name, means[k]!.interval95)
    return [name, { ...means[k]!, interval95, interval95NextEvening: next, refusal: null }]
  })
  return Object.fromEntries(predictions) as unknown as Predictions
}

function contextOf({ setup, conditions }: PredictionQuestion): ForecastContext {
  const { equipment, reductionRatio } = setup
  const { elevationM, flatAreaM2, reserve } = conditions
  return { equipment, reductionRatio, elevationM, flatAreaM2, reserve }
}

/** Why a quantity can't be predicted, whatever its value would be. */
function refusalOf(question: PredictionQuestion, name: Predicted): PredictionRefusal | null {
  const { setup, conditions } = question
  const { basis } = FACTS[name]
  if (basis !== undefined) {
    const refused = refusalOfEvidence(question, basis)
    if (refused !== null) return refused
    if (basis === 'inducedPower') return refusalOfClimb(question)
  }
  const needsTank = name === 'endurance' || name === 'range'
  if (needsTank && conditions.tankL === null) return notPredicted('tankNotGiven')
  const needsRpm = name === 'engineRpm' || name === 'propellerRpm' || name === 'tipMach'
  if (needsRpm && setup.ratedRpm === null) return notPredicted('ratedRpmUnknown')
  const needsRatio = name === 'propellerRpm' || name === 'tipMach'
  return needsRatio && setup.reductionRatio === null ? notPredicted('reductionUnknown') : null
}

function refusalOfClimb({
  setup,
  conditions,
  evidence,
}: PredictionQuestion): PredictionRefusal | null {
  const inducedPowerW = Math.exp(evidence.inducedPower.view.logQuantityOf(setup.setupId)!)
  const climb = climbAt({ inducedPowerW, ...setup.equipment }, stateOf(conditions))
  return climb.withinModel ? null : notPredicted('outsideModel')
}

function refusalOfValue(name: Predicted, value: number): PredictionRefusal | null {
  if ((name === 'climbRate' || name === 'climbAngle') && !(value > 0)) {
    return notPredicted('doesNotClimb')
  }
  return FACTS[name].isFloored && value === 0 ? notPredicted('reserveExceedsTank') : null
}

function floored(name: Predicted, [low, high]: readonly [number, number]): [number, number] {
  return FACTS[name].isFloored ? [Math.max(0, low), high] : [low, high]
}
