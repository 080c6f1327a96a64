import { PREDICTED, type Predicted } from '../../core/prediction/forecast.ts'
import { basisOf, type Prediction, type Predictions } from '../../core/prediction/predict-setup.ts'
import {
  type BesideFields,
  type ByOthers,
  besideFields,
  besideSentences,
  mapOthers,
} from '../../db/other-fits.ts'

/** Predictions by the fits that answer and by the others of the same evidence. */
export interface ByAllFits {
  readonly predictions: Predictions
  readonly others: ByOthers<Predictions>
}

/** What other fits find of one quantity; nothing where it rests on no flights. */
export function besideQuantity(
  { predictions, others }: ByAllFits,
  quantity: Predicted,
): BesideFields<{ value: number | null }> {
  if (basisOf(quantity) === null) return {}
  const own = predictions[quantity]
  const found = mapOthers(others, (other) => ({ value: figureOf(other[quantity]) }))
  return besideFields(found, ({ value }) => isOutside(own, value))
}

/** Sentences on the quantities that other fits find otherwise. */
export function whatDiffers({ predictions, others }: ByAllFits): string[] {
  const found = mapOthers(others, (other) =>
    PREDICTED.filter(
      (name) => basisOf(name) !== null && isOutside(predictions[name], figureOf(other[name])),
    ),
  )
  return besideSentences(
    found,
    (names) => names.length > 0,
    (names) =>
      `${names.map((name) => IN_WORDS[name]).join(', ')} would lie outside the interval given here, or be refused`,
  )
}

const IN_WORDS: Partial<Readonly<Record<Predicted, string>>> = {
  climbRate: 'climb rate',
  climbThrust: 'thrust in the climb',
  climbAngle: 'angle of climb',
  fuelFlow: 'fuel flow',
  litresPer100Km: 'litres per 100 km',
  electricPower: 'electric power',
  staticThrust: 'static thrust',
  endurance: 'endurance',
  range: 'range',
}

function figureOf(prediction: Prediction): number | null {
  return prediction.refusal === null ? prediction.value : null
}

function isOutside(own: Prediction, value: number | null): boolean {
  if (own.refusal !== null || value === null) return own.refusal === null || value !== null
  const [low, high] = own.interval95
  return value < low || value > high
}
