/** Powers of ten that a double holds exactly. */
const POWERS = Array.from({ length: 23 }, (_, power) => Number(`1e${power}`))

const EXACT_DIGITS = 15
const ZERO = 0x30
const POINT = 0x2e
const MINUS = 0x2d

/**
 * The number that decimal digits stand for, correctly rounded. Up to 15 digits and a plain point, it
 * is the quotient of two doubles that are exact; anything else goes the long way over a string.
 *
 * @source Clinger 1990, How to read floating point numbers accurately, the fast path
 */
export function decimalOf(bytes: Uint8Array, start: number, end: number): number {
  let at = start
  const negative = bytes[at] === MINUS
  if (negative) at++
  let digits = 0
  let point = -1
  let mantissa = 0
  for (; at < end; at++) {
    const byte = bytes[at]!
    const digit = byte - ZERO
    if (digit >= 0 && digit <= 9) {
      mantissa = 10 * mantissa + digit
      if (mantissa > 0) digits++
    } else if (byte === POINT && point === -1) point = at
    else return slowly(bytes, start, end)
  }
  if (digits > EXACT_DIGITS) return slowly(bytes, start, end)
  const decimals = point === -1 ? 0 : end - 1 - point
  if (decimals >= POWERS.length) return slowly(bytes, start, end)
  const value = mantissa / POWERS[decimals]!
  return negative ? -value : value
}

function slowly(bytes: Uint8Array, start: number, end: number): number {
  return Number(Buffer.from(bytes.buffer, bytes.byteOffset + start, end - start).toString('latin1'))
}
