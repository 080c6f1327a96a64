/**
 * The four variance components of the nested model, from coarse to fine. Every array of
 * length 4 in this folder, and every 4 × 4 matrix, is in this order.
 */
export const COMPONENTS = ['pilot', 'session', 'cell', 'run'] as const

/** One of the {@link COMPONENTS}; a cell is one setup within one session. */
export type Component = (typeof COMPONENTS)[number]

/** Number of variance components. */
export const COMPONENT_COUNT = COMPONENTS.length

/** One value per component. Variances are in the square of the unit of y. */
export type PerComponent<T> = Readonly<Record<Component, T>>

/**
 * A value for each component, computed from its position.
 *
 * @param valueAt gives the value of the component with this index in {@link COMPONENTS}
 * @returns the record of the four values
 * @source common practice
 */
export function perComponent<T>(valueAt: (index: number) => T): PerComponent<T> {
  return { pilot: valueAt(0), session: valueAt(1), cell: valueAt(2), run: valueAt(3) }
}

/**
 * The four values as an array in the order of {@link COMPONENTS}.
 *
 * @param values one number per component
 * @returns a new array of length 4
 * @source common practice
 */
export function componentArray(values: PerComponent<number>): Float64Array {
  return Float64Array.from(COMPONENTS, (component) => values[component])
}
