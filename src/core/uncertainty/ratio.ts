import { OutOfRangeError } from '../errors.ts'
import type { UncertainInput } from './propagate.ts'

/** A positive result with the contributions of its inputs. */
export interface BudgetedResult {
  /** [its unit], above 0. */
  readonly value: number
  /** Inputs in the order of the model, the same model for both results. */
  readonly inputs: readonly UncertainInput[]
  /** c_i·u_i with its sign, one per input [unit of the value]. */
  readonly contributions: ArrayLike<number>
}

/** Ratio of two results. */
export interface ResultRatio {
  /** b over a [1]. */
  readonly ratio: number
  /** With the errors that both share drawn once [1]. */
  readonly standardUncertainty: number
  /** What it would be if the results had nothing in common [1]: too large for a pair of one session. */
  readonly standardUncertaintyIfIndependent: number
}

/**
 * Ratio of two results of one session, shared errors drawn once.
 *
 *     u²(ln b/a) = Σ shared (c_bi/b − c_ai/a)² + Σ own [(c_ai/a)² + (c_bi/b)²]
 *
 * @param a the result below
 * @param b the result above, of the same model
 * @param options which inputs both results share, if not those that are shared within the session: two
 *   setups of a session, for one, have a propeller each
 * @returns ratio with both standard uncertainties [1]
 * @throws {OutOfRangeError} if the results have inputs of different number, or are not above 0
 * @source JCGM 100:2008 (GUM), 5.2.2 and F.1.2.3 (correlation through a common cause)
 */
export function ratioOf(
  a: BudgetedResult,
  b: BudgetedResult,
  options: { readonly shares?: (input: UncertainInput) => boolean } = {},
): ResultRatio {
  const { shares = (input) => input.sharedWithinSession } = options
  const count = a.inputs.length
  if (b.inputs.length !== count) {
    throw new OutOfRangeError('number of inputs', b.inputs.length, count, count)
  }
  for (const { value } of [a, b]) {
    if (!(value > 0)) throw new OutOfRangeError('value', value, 0, Number.POSITIVE_INFINITY)
  }
  let variance = 0
  let independent = 0
  for (let i = 0; i < count; i++) {
    const ofA = a.contributions[i]! / a.value
    const ofB = b.contributions[i]! / b.value
    independent += ofA ** 2 + ofB ** 2
    variance += shares(a.inputs[i]!) ? (ofB - ofA) ** 2 : ofA ** 2 + ofB ** 2
  }
  const ratio = b.value / a.value
  return {
    ratio,
    standardUncertainty: ratio * Math.sqrt(variance),
    standardUncertaintyIfIndependent: ratio * Math.sqrt(independent),
  }
}
