import { OutOfRangeError } from '../errors.ts'

/**
 * Passes a value through when it lies in the closed range a formula is good for.
 *
 * @param quantity name of the value, for the message
 * @param value the value [any unit]; NaN fails
 * @param range lowest and highest accepted value [same unit]
 * @returns the value, unchanged
 * @throws {OutOfRangeError} if the value lies outside or is NaN
 * @source common practice
 */
export function requireInRange(
  quantity: string,
  value: number,
  range: { readonly min: number; readonly max: number },
): number {
  if (!(value >= range.min && value <= range.max)) {
    throw new OutOfRangeError(quantity, value, range.min, range.max)
  }
  return value
}
