import { requireInRange } from '../atmosphere/range.ts'
import { normalCdf, normalQuantile } from '../distributions/normal.ts'
import type { Model, UncertainInput } from './propagate.ts'

/** What the draws of one output say. */
export interface DrawnOutput {
  readonly mean: number
  /** Standard deviation of the draws. */
  readonly standardUncertainty: number
  /** Interval that holds 95 % of the draws, as many below it as above. */
  readonly interval95: readonly [low: number, high: number]
}

/** Result of {@link monteCarlo}. */
export interface MonteCarloResult {
  readonly outputs: readonly DrawnOutput[]
  readonly draws: number
  /** Draws for which the model had no answer; they are left out of everything else. */
  readonly failedDraws: number
}

/** A source of uniform numbers in (0, 1), such as Pcg32. */
interface UniformSource {
  uniform(): number
}

const DRAWS_RANGE = { min: 100, max: 10_000_000 } as const
const COVERAGE = 0.95
/** Half-width of a rectangle over its standard deviation. */
const ROOT_3 = Math.sqrt(3)

/**
 * Propagation of distributions by Monte Carlo: the model is run on inputs drawn from their
 * distributions. Says what linear propagation can't: how far the result is bent or leans over.
 *
 * Inputs are independent; each is normal, or rectangular where it says so. A bounded normal input is
 * the normal distribution cut off at its bounds.
 *
 * @param inputs the inputs, each with its standard uncertainty
 * @param outputs number of outputs of the model, 1 or more
 * @param model the model; called with arrays that are reused
 * @param options number of draws, 100 to 1e7 (1e4 give a standard uncertainty to 1 %), and where the
 *   random numbers come from, so that the same seed gives the same result
 * @returns mean, standard uncertainty and 95 % interval of each output [its unit]; NaN where fewer
 *   than two draws had an answer
 * @throws {OutOfRangeError} if the number of draws lies outside its range
 * @source JCGM 101:2008, clauses 5.9 and 7
 */
export function monteCarlo(
  inputs: readonly UncertainInput[],
  outputs: number,
  model: Model,
  { draws, random }: { readonly draws: number; readonly random: UniformSource },
): MonteCarloResult {
  requireInRange('draws', draws, DRAWS_RANGE)
  const samplers = inputs.map(samplerOf)
  const x = new Float64Array(inputs.length)
  const y = new Float64Array(outputs)
  const drawn = Array.from({ length: outputs }, () => new Float64Array(draws))
  let kept = 0
  for (let draw = 0; draw < draws; draw++) {
    for (let i = 0; i < samplers.length; i++) x[i] = samplers[i]!(random)
    model(x, y)
    let finite = true
    for (let k = 0; k < outputs; k++) {
      drawn[k]![kept] = y[k]!
      finite &&= Number.isFinite(y[k]!)
    }
    if (finite) kept++
  }
  return {
    outputs: drawn.map((values) => summarise(values.subarray(0, kept))),
    draws,
    failedDraws: draws - kept,
  }
}

type Sampler = (random: UniformSource) => number

function samplerOf(input: UncertainInput): Sampler {
  const { value, standardUncertainty: u } = input
  const { min = Number.NEGATIVE_INFINITY, max = Number.POSITIVE_INFINITY } = input
  if (u === 0) return () => value
  if (input.distribution === 'rectangular') {
    const low = Math.max(min, value - ROOT_3 * u)
    const high = Math.min(max, value + ROOT_3 * u)
    return (random) => low + (high - low) * random.uniform()
  }
  const below = normalCdf((min - value) / u)
  const inside = normalCdf((max - value) / u) - below
  return (random) => value + u * normalQuantile(openUnit(below + inside * random.uniform()))
}

/** Rounding may land on 0 or 1, which no quantile belongs to. */
function openUnit(probability: number): number {
  return Math.min(Math.max(probability, Number.MIN_VALUE), 1 - Number.EPSILON / 2)
}

/** @param values draws of one output. Sorted in place. */
function summarise(values: Float64Array): DrawnOutput {
  const count = values.length
  let mean = 0
  for (let i = 0; i < count; i++) mean += values[i]! / count
  let squares = 0
  for (let i = 0; i < count; i++) squares += (values[i]! - mean) ** 2
  values.sort()
  // JCGM 101, 7.7: q of the sorted draws lie inside, (M − q)/2 on either side.
  const inside = Math.round(COVERAGE * count)
  const first = Math.max(1, Math.round((count - inside) / 2))
  return {
    mean: count < 2 ? Number.NaN : mean,
    standardUncertainty: Math.sqrt(squares / (count - 1)),
    interval95: [values[first - 1] ?? Number.NaN, values[first + inside - 1] ?? Number.NaN],
  }
}
