/** A precondition of a core function does not hold: the value lies outside the range the formula is good for. */
export class OutOfRangeError extends Error {
  override readonly name = 'OutOfRangeError'
  readonly quantity: string
  readonly value: number
  readonly min: number
  readonly max: number

  constructor(quantity: string, value: number, min: number, max: number) {
    super(`${quantity} must lie in [${min}, ${max}], got ${value}`)
    this.quantity = quantity
    this.value = value
    this.min = min
    this.max = max
  }
}
