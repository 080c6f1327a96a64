import type { UncertainInput } from '../../uncertainty/propagate.ts'

/**
 * Position of each name in a list of names, for reading a vector by name.
 *
 * @param names distinct names, in the order of the vector
 * @returns position by name, from 0
 * @source common practice
 */
export function positionsOf<N extends string>(names: readonly N[]): Readonly<Record<N, number>> {
  return Object.fromEntries(names.map((name, index) => [name, index])) as Record<N, number>
}

/**
 * Inputs by name, brought into the order of the vector.
 *
 * @param names distinct names, in the order of the vector
 * @param inputs one input for each name
 * @returns the inputs in that order
 * @source common practice
 */
export function inOrder<N extends string>(
  names: readonly N[],
  inputs: Readonly<Record<N, UncertainInput>>,
): UncertainInput[] {
  return names.map((name) => inputs[name])
}

/**
 * Values of inputs, in their order.
 *
 * @param inputs the inputs
 * @returns a new vector of their values
 * @source common practice
 */
export function valuesOf(inputs: readonly UncertainInput[]): Float64Array {
  const values = new Float64Array(inputs.length)
  for (let i = 0; i < inputs.length; i++) values[i] = inputs[i]!.value
  return values
}

/**
 * Whether a vector has the values of the inputs at some positions.
 *
 * @param inputs the inputs
 * @param x a vector in their order
 * @param positions where to look
 * @returns true where no entry there is displaced
 * @source common practice
 */
export function standsAt(
  inputs: readonly UncertainInput[],
  x: Float64Array,
  positions: readonly number[],
): boolean {
  for (const position of positions) if (x[position] !== inputs[position]!.value) return false
  return true
}
