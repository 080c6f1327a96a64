import { OutOfRangeError } from '../errors.ts'
import type { Model, Propagation, UncertainInput } from '../uncertainty/propagate.ts'
import type { BudgetLine, Evidence, SystematicEffect } from './types.ts'

/** Every model of a run has two outputs: the value at the reference state and the log of its evidence. */
export const OUTPUTS = 2
export const VALUE = 0
export const LOG_EVIDENCE = 1

/**
 * Makes NaN of a displaced point that lies outside the physics, so that the step is shortened there.
 *
 * @source common practice
 */
export function answeringNaN(model: Model): Model {
  return (x, y) => {
    try {
      model(x, y)
    } catch (error) {
      if (!(error instanceof OutOfRangeError)) throw error
      y.fill(Number.NaN)
    }
  }
}

/**
 * Budget of the value: one line per cause that matters, largest first.
 *
 *     share_i = (c_i·u_i)² / Σ (c_j·u_j)²
 *
 * @param inputs the inputs, in the order of the model
 * @param propagation what {@link propagate} gave for them
 * @returns combined standard uncertainty [unit of the value] and the lines; shares sum to 1
 * @source JCGM 100:2008 (GUM), 5.1.2 eq. (10)
 */
export function budgetOf(
  inputs: readonly UncertainInput[],
  { contributions }: Propagation,
): { readonly standardUncertainty: number; readonly budget: BudgetLine[] } {
  let variance = 0
  for (let i = 0; i < inputs.length; i++) variance += contributions[i * OUTPUTS + VALUE]! ** 2
  const budget: BudgetLine[] = []
  for (let i = 0; i < inputs.length; i++) {
    const standardUncertainty = Math.abs(contributions[i * OUTPUTS + VALUE]!)
    if (standardUncertainty === 0) continue
    const { source, sharedWithinSession } = inputs[i]!
    const share = standardUncertainty ** 2 / variance
    budget.push({ source, standardUncertainty, share, sharedWithinSession })
  }
  budget.sort((a, b) => b.share - a.share)
  return { standardUncertainty: Math.sqrt(variance), budget }
}

/**
 * Evidence of a run: the log of its wing-free figure, its uncertainty split by who else carries it.
 *
 *     u_own² = Σ own (c_i·u_i)²·(1 − Σf²),  u_shared² = Σ shared (c_i·u_i)²·(1 − Σf²)
 *     systematic effect of input i at reach r = c_i·u_i·f_r, with its sign
 *
 * @param quantity what the figure is
 * @param inputs the inputs, in the order of the model
 * @param propagation what {@link propagate} gave for them
 * @returns log value, both standard uncertainties and the systematic effects [1]
 * @source JCGM 100:2008 (GUM), 5.1.2 eq. (10)
 */
export function evidenceOf(
  quantity: Evidence['quantity'],
  inputs: readonly UncertainInput[],
  { values, contributions }: Propagation,
): Evidence {
  let own = 0
  let shared = 0
  const systematic: SystematicEffect[] = []
  for (let i = 0; i < inputs.length; i++) {
    const contribution = contributions[i * OUTPUTS + LOG_EVIDENCE]!
    const { source, sharedWithinSession, common = [] } = inputs[i]!
    let rest = 1
    for (const { reach, among, fraction } of common) {
      rest -= fraction ** 2
      const effect = contribution * fraction
      if (effect !== 0)
        systematic.push({
          cause: among === undefined ? source : `${source} (${among})`,
          reach,
          effect,
        })
    }
    const variance = contribution ** 2 * Math.max(0, rest)
    if (sharedWithinSession) shared += variance
    else own += variance
  }
  return {
    quantity,
    logValue: values[LOG_EVIDENCE]!,
    ownStandardUncertainty: Math.sqrt(own),
    sharedStandardUncertainty: Math.sqrt(shared),
    systematic,
  }
}
