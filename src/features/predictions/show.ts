import { CAUTIONS, doNotFly, interestBehind } from '../../contract/cautions.ts'
import { airAt } from '../../core/normalise/model/air.ts'
import { type Known, type PredictionConditions, stateOf } from '../../core/prediction/asked.ts'
import { PREDICTED, type Predicted } from '../../core/prediction/forecast.ts'
import type { Prediction as Figures, Predictions } from '../../core/prediction/predict-setup.ts'
import { BASES, type Basis } from '../../core/prediction/question.ts'
import type { SetupFacts } from '../../db/catalogue-facts.ts'
import type { ChosenFits } from '../../db/fit-choice.ts'
import type { LoadedFit } from '../../db/fit-store.ts'
import { type ByOthers, otherFitsOf } from '../../db/other-fits.ts'
import { besideQuantity, whatDiffers } from './beside.ts'
import type { PredictedQuantity, Prediction } from './schema.ts'

/** A prediction with all that is shown around it. */
export interface Answered {
  readonly facts: SetupFacts
  /** Fits in the order of the bases. */
  readonly chosen: readonly ChosenFits[]
  readonly conditions: PredictionConditions
  readonly predictions: Predictions
  readonly others: ByOthers<Predictions>
  readonly wingId: string | null
}

const UNITS: Readonly<Record<Predicted, string>> = {
  climbRate: 'm/s',
  climbThrust: 'N',
  climbAngle: '°',
  airspeed: 'm/s',
  fuelFlow: 'L/h',
  litresPer100Km: 'L',
  electricPower: 'W',
  staticThrust: 'N',
  endurance: 'h',
  range: 'km',
  densityAltitude: 'm',
  fullThrottlePowerRatio: '1',
  engineRpm: '1/min',
  propellerRpm: '1/min',
  tipMach: '1',
}

/** The answer as it goes over the wire. */
export function showPrediction(answered: Answered): Prediction {
  const { facts, chosen, predictions } = answered
  const { setupId, name, safety } = facts
  const shown = PREDICTED.map((quantity) => [
    quantity,
    {
      ...showQuantity(UNITS[quantity], predictions[quantity]),
      ...besideQuantity(answered, quantity),
    },
  ])
  return {
    setupId,
    name,
    fits: ofBases((i) => chosen[i]!.fit.id),
    otherFits: otherFitsOf(chosen),
    conditions: showConditions(answered),
    predictions: Object.fromEntries(shown) as Prediction['predictions'],
    evidence: ofBases((i) => countOf(chosen[i]!.fit, setupId)),
    safety: { state: safety.state, advisories: [...safety.advisories] },
    cautions: cautionsOf(answered),
  }
}

function ofBases<T>(of: (i: number) => T): Record<Basis, T> {
  return Object.fromEntries(BASES.map((basis, i) => [basis, of(i)])) as Record<Basis, T>
}

function showQuantity(unit: string, figures: Figures): PredictedQuantity {
  if (figures.refusal !== null) {
    const { code, reason } = figures.refusal
    const nothing = { value: null, standardUncertainty: null, interval95: null }
    const refused = { reasonCode: code, reason }
    return { unit, ...nothing, interval95NextEvening: null, budget: [], refused }
  }
  const { value, standardUncertainty, interval95, interval95NextEvening, budget } = figures
  return {
    value,
    unit,
    standardUncertainty,
    interval95: [...interval95],
    interval95NextEvening: interval95NextEvening && [...interval95NextEvening],
    budget: budget.filter(({ share }) => share >= 0.001).map((line) => ({ ...line })),
  }
}

function showConditions({ conditions, wingId }: Answered): Prediction['conditions'] {
  const { elevationM, flatAreaM2, tankL, reserve, assumed } = conditions
  return {
    elevationM,
    airDensityKgPerM3: airAt(stateOf(conditions)).densityKgPerM3,
    allUpMassKg: showKnown(conditions.allUpMassKg),
    temperatureC: showKnown(conditions.temperatureC),
    stationPressureHPa: showKnown(conditions.stationPressureHPa),
    relativeHumidityPct: showKnown(conditions.relativeHumidityPct),
    wing: {
      id: wingId,
      flatAreaM2,
      glideRatio: showKnown(conditions.glideRatio),
      trimSpeedMps: showKnown(conditions.trimSpeedMps),
      trimAtAllUpMassKg: showKnown(conditions.trimAtAllUpMassKg),
    },
    tank: tankL && {
      tankL: showKnown(tankL),
      ...('litres' in reserve ? { reserveL: reserve.litres } : { reserveMin: reserve.minutes }),
    },
    assumed: [...assumed],
  }
}

function showKnown({ value, u }: Known): { value: number; standardUncertainty: number } {
  return { value, standardUncertainty: u }
}

function countOf(fit: LoadedFit, setupId: string): Prediction['evidence'][Basis] {
  const interestedSessions = fit.interestedSessions.get(setupId) ?? 0
  return { ...fit.view.evidenceOf(setupId), interestedSessions }
}

/** Tips this fast are loud, and lose thrust: METHOD.md, section i. */
const FAST_TIPS_MACH = 0.7

function cautionsOf(answered: Answered): string[] {
  const { facts, chosen, conditions, predictions } = answered
  const { climbRate, endurance, electricPower, staticThrust, tipMach } = predictions
  const isInterested = chosen.some(
    ({ fit }) => (fit.interestedSessions.get(facts.setupId) ?? 0) > 0,
  )
  const { reserve, tankL } = conditions
  const isEmptied = tankL !== null && 'litres' in reserve && reserve.litres === 0
  return [
    ...(facts.safety.state === 'doNotFly' ? [doNotFly(facts.name)] : []),
    ...(isInterested ? [interestBehind(facts.name)] : []),
    ...whatDiffers(answered),
    ...(climbRate.refusal === null && climbRate.interval95[0] <= 0
      ? ['At the low end of its interval it does not climb at all under these conditions.']
      : []),
    ...(climbRate.refusal === null ? [CAUTIONS.fullThrottleClimb] : []),
    ...(endurance.refusal === null && isEmptied ? [WITHOUT_RESERVE, CAUTIONS.burnToEmpty] : []),
    ...(electricPower.refusal === null ? [CAUTIONS.batteryToEmpty] : []),
    ...(staticThrust.refusal === null ? [CAUTIONS.staticPull] : []),
    ...(endurance.refusal === null ? [THROUGH_STILL_AIR] : []),
    ...(tipMach.refusal === null && tipMach.value > FAST_TIPS_MACH ? [FAST_TIPS] : []),
    CAUTIONS.underLoad,
    CAUTIONS.deference,
  ]
}

const WITHOUT_RESERVE = 'No reserve was asked for: endurance and range end with the engine out.'
const THROUGH_STILL_AIR =
  'Endurance and range are level and through still air: climbs, turns and headwind take their share, and no interval holds a bad day.'
const FAST_TIPS =
  'At the rated engine speed the propeller tips would pass Mach 0.7: loud, and worth a check of reduction and diameter.'
