import { OutOfRangeError } from '../core/errors.ts'
import { ApiProblem } from './problems.ts'

/**
 * What `act` gives; where it finds a value outside the range of the model, the problem names the
 * parameter that value came from.
 *
 * @param pointers pointer of the parameter by the core's name of the value; others point at the query
 * @throws {ApiProblem} outside-model-range
 */
export function withinModel<T>(pointers: Readonly<Record<string, string>>, act: () => T): T {
  try {
    return act()
  } catch (error) {
    if (!(error instanceof OutOfRangeError)) throw error
    const { quantity, value, min, max } = error
    const [at, from, to] = [value, min, max].map((x) => String(Number(x.toPrecision(5))))
    const detail = `gives ${quantity} = ${at}; the model holds from ${from} to ${to}`
    throw new ApiProblem('outside-model-range', {
      errors: [{ pointer: pointers[error.quantity] ?? '', detail }],
    })
  }
}

/** Parameters of the wing: one of the catalogue answers for all its figures. */
export function wingPointers(wingId: string | undefined): Readonly<Record<string, string>> {
  const names = ['flatAreaM2', 'glideRatio', 'trimSpeedMps', 'trimAtAllUpMassKg']
  return Object.fromEntries(
    names.map((name) => [name, wingId === undefined ? `/${name}` : '/wingId']),
  )
}
