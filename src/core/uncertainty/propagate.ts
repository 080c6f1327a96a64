/**
 * Who else carries the same error beyond a session: every pilot (an allowance or a model of the
 * method), every run with one powerplant, whatever propeller it turns (its friction, its mixture),
 * every run of one setup (its propeller), or every session of one pilot (wing, scales).
 */
export type Reach = 'everyone' | 'powerplant' | 'setup' | 'pilot'

/** The part of an error that reaches beyond a session. */
export interface CommonShare {
  readonly reach: Reach
  /** Who of them, where it is not all: the cause is another one for the others. */
  readonly among?: string
  /** Part of the standard uncertainty, −1 to 1; the sign is that of the error when the cause is positive. */
  readonly fraction: number
}

/** One input of a model, with what is known of its error. */
export interface UncertainInput {
  /** What varies, in words a pilot understands. */
  readonly source: string
  readonly value: number
  /** Standard uncertainty [unit of the value], k = 1, 0 or more. */
  readonly standardUncertainty: number
  /** True where all runs of a session carry the same error. */
  readonly sharedWithinSession: boolean
  /** Parts of the error that reach beyond a session; Σ fraction² ≤ 1. Absent: none does. */
  readonly common?: readonly CommonShare[]
  /** For Monte Carlo: shape of the error. Absent: normal. */
  readonly distribution?: 'normal' | 'rectangular'
  /** Lowest and highest value the model accepts. */
  readonly min?: number
  readonly max?: number
}

/**
 * A model with several outputs: reads x, one entry per input in their order, and writes its outputs
 * to y. It writes NaN where it has no answer and keeps neither array.
 */
export type Model = (x: Float64Array, y: Float64Array) => void

/** Result of {@link propagate}. */
export interface Propagation {
  /** Outputs at the values of the inputs. */
  readonly values: Float64Array
  /** c_i·u_i with its sign: entry (input i, output k) is `contributions[i * outputs + k]`. */
  readonly contributions: Float64Array
}

/** How often a step is halved before the sensitivity is given up as NaN. */
const MAX_HALVINGS = 24

/**
 * Linear propagation of uncertainty through a model of independent inputs.
 *
 *     c_i = (f(x_i + s) − f(x_i − s)) / 2s,  s = u_i;   contribution of input i = c_i·u_i
 *
 * At a bound of the input the difference becomes one-sided; where the model has no answer at a
 * displaced point, the step is halved until it has. Inputs with u_i = 0 cost nothing.
 *
 * @param inputs the inputs, each with its standard uncertainty
 * @param outputs number of outputs of the model, 1 or more
 * @param model the model; called with arrays that are reused
 * @returns outputs and signed contributions [unit of each output]; covariances of two outputs are
 *   the sums of products of their contributions
 * @source JCGM 100:2008 (GUM), 5.1.2 eq. (10) and 5.1.3 note 2
 */
export function propagate(
  inputs: readonly UncertainInput[],
  outputs: number,
  model: Model,
): Propagation {
  const n = inputs.length
  const x = new Float64Array(n)
  for (let i = 0; i < n; i++) x[i] = inputs[i]!.value

  const values = new Float64Array(outputs)
  model(x, values)

  const contributions = new Float64Array(n * outputs)
  const upper = new Float64Array(outputs)
  const lower = new Float64Array(outputs)
  for (let i = 0; i < n; i++) {
    const input = inputs[i]!
    if (input.standardUncertainty === 0) continue
    const width = displace(x, i, input, model, upper, lower)
    for (let k = 0; k < outputs; k++) {
      contributions[i * outputs + k] = ((upper[k]! - lower[k]!) / width) * input.standardUncertainty
    }
  }
  return { values, contributions }
}

/** Evaluates the model above and below input i, leaves x as it was, gives the distance between. */
function displace(
  x: Float64Array,
  i: number,
  input: UncertainInput,
  model: Model,
  upper: Float64Array,
  lower: Float64Array,
): number {
  const { value, min = Number.NEGATIVE_INFINITY, max = Number.POSITIVE_INFINITY } = input
  let step = input.standardUncertainty
  let width = Number.NaN
  for (let halvings = 0; halvings <= MAX_HALVINGS; halvings++) {
    const above = Math.min(value + step, max)
    const below = Math.max(value - step, min)
    width = above - below
    x[i] = above
    model(x, upper)
    x[i] = below
    model(x, lower)
    if (allFinite(upper) && allFinite(lower)) break
    step /= 2
  }
  x[i] = value
  return width
}

function allFinite(values: Float64Array): boolean {
  for (let k = 0; k < values.length; k++) if (!Number.isFinite(values[k]!)) return false
  return true
}
