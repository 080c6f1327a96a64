import { normalQuantile } from '../distributions/normal.ts'
import { studentTQuantile } from '../distributions/student-t.ts'

/** One input of a prediction with what is known of its error. */
export interface Unknown {
  /** What varies, in words a pilot understands. */
  readonly source: string
  readonly value: number
  /** Standard uncertainty [unit of the value], k = 1, 0 or more. */
  readonly standardUncertainty: number
  /** Of that uncertainty; absent: taken as known, the normal distribution. */
  readonly degreesOfFreedom?: number
  /** Lowest and highest value the model accepts. */
  readonly min?: number
  readonly max?: number
}

/** How distances from the value are combined: as differences, or as ratios where nothing below zero makes sense. */
export type Scale = 'difference' | 'ratio'

/** One line of a budget. */
export interface BudgetPart {
  readonly source: string
  /** [unit of the value] */
  readonly standardUncertainty: number
  /** Fraction of the variance; the shares sum to 1. */
  readonly share: number
}

/** A predicted value with its uncertainty. */
export interface SpreadValue {
  readonly value: number
  readonly standardUncertainty: number
  readonly interval95: readonly [number, number]
  /** Largest first; inputs that do nothing are left out. */
  readonly budget: readonly BudgetPart[]
}

/** Reads x, one entry per unknown, and gives its outputs as a new array; NaN where it has no answer. */
export type PredictionModel = (x: Float64Array) => Float64Array

const NORMAL_95 = normalQuantile(0.975)

/**
 * Sends independent unknowns through a model.
 *
 *     u² = Σ ((f(x_i + u_i) − f(x_i − u_i))/2)²
 *     lower = y − √(Σ (y − l_i)²),  upper = y + √(Σ (h_i − y)²)
 *     l_i, h_i = lower and higher of f at x_i ∓ t₀.₉₇₅,ν_i·u_i
 *
 * Each input's own interval is read through the model itself, so that a bend of the model shows; with
 * one input the interval is exactly that reading. On the scale `ratio` y, l and h are logarithms.
 *
 * @param unknowns the inputs
 * @param model the model
 * @param scales one scale per output; a `ratio` needs positive outputs
 * @returns value, standard uncertainty, 95 % interval and budget of each output [its unit]
 * @source u: JCGM 100:2008 (GUM), 5.1.2 and 5.1.3 note 2. Interval: recovery of variances from the limits
 *   of each part, G. Y. Zou, A. Donner, Statistics in Medicine 27 (2008) 1693 (from memory)
 */
export function spreadOf(
  unknowns: readonly Unknown[],
  model: PredictionModel,
  scales: readonly Scale[],
): SpreadValue[] {
  const x = Float64Array.from(unknowns, ({ value }) => value)
  const values = model(x)
  const effects = unknowns
    .map((unknown, i) => ({ unknown, i }))
    .filter(({ unknown }) => unknown.standardUncertainty > 0)
    .map(({ unknown, i }) => effectOf(unknown, (value) => model(x.with(i, value))))
  return scales.map((scale, k) => {
    const value = values[k]!
    const contributions = effects.map((effect) => (effect.above[k]! - effect.below[k]!) / 2)
    const variance = contributions.reduce((sum, c) => sum + c * c, 0)
    return {
      value,
      standardUncertainty: Math.sqrt(variance),
      interval95: intervalOf(
        value,
        effects.map(({ ends }) => [ends[0][k]!, ends[1][k]!]),
        scale,
      ),
      budget: budgetOf(effects, contributions, variance),
    }
  })
}

/** What one unknown does to all outputs: a standard uncertainty up and down, and the ends of its interval. */
interface Effect {
  readonly source: string
  readonly above: Float64Array
  readonly below: Float64Array
  readonly ends: readonly [Float64Array, Float64Array]
}

function effectOf(unknown: Unknown, at: (value: number) => Float64Array): Effect {
  const { source, value, standardUncertainty: u, degreesOfFreedom } = unknown
  const { min = Number.NEGATIVE_INFINITY, max = Number.POSITIVE_INFINITY } = unknown
  const inside = (wanted: number) => at(Math.min(max, Math.max(min, wanted)))
  const reach =
    degreesOfFreedom === undefined ? NORMAL_95 : studentTQuantile(0.975, degreesOfFreedom)
  return {
    source,
    above: inside(value + u),
    below: inside(value - u),
    ends: [inside(value - reach * u), inside(value + reach * u)],
  }
}

function intervalOf(
  value: number,
  ends: readonly (readonly [number, number])[],
  scale: Scale,
): [number, number] {
  const to = scale === 'ratio' ? Math.log : (y: number) => y
  const from = scale === 'ratio' ? Math.exp : (y: number) => y
  const centre = to(value)
  let down = 0
  let up = 0
  for (const [a, b] of ends) {
    const low = to(Math.min(a, b, value))
    const high = to(Math.max(a, b, value))
    down += (centre - low) ** 2
    up += (high - centre) ** 2
  }
  return [from(centre - Math.sqrt(down)), from(centre + Math.sqrt(up))]
}

function budgetOf(
  effects: readonly Effect[],
  contributions: readonly number[],
  variance: number,
): BudgetPart[] {
  return effects
    .map(({ source }, i) => ({
      source,
      standardUncertainty: Math.abs(contributions[i]!),
      share: contributions[i]! ** 2 / variance,
    }))
    .filter(({ standardUncertainty }) => standardUncertainty > 0)
    .sort((a, b) => b.share - a.share)
}
