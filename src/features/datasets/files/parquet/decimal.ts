import { quotientOf } from './quotient.ts'

/** Powers of ten that a double holds exactly. */
const POWERS = Float64Array.from({ length: 23 }, (_, power) => Number(`1e${power}`))

/** Digits whose number a double always holds. */
const EXACT_DIGITS = 15

/** Digits that fit into two whole numbers of {@link HALF} each. */
const MOST_DIGITS = 18
const HALF = 9

const ZERO = 0x30
const POINT = 0x2e
const MINUS = 0x2d
const PLUS = 0x2b
const EXPONENT = 0x65 // e

/**
 * The number that decimal digits stand for, correctly rounded, as PostgreSQL writes it: up to 18
 * digits, a point, an exponent. Anything else goes the long way over a string.
 *
 * @source Clinger 1990, How to read floating point numbers accurately, the fast path; beyond 15
 *   digits {@link quotientOf}
 */
export function decimalOf(bytes: Uint8Array, start: number, end: number): number {
  const negative = bytes[start] === MINUS
  let at = negative ? start + 1 : start
  let digits = 0
  let high = 0 // the first nine digits
  let low = 0 // the next nine
  let point = -1
  for (; at < end; at++) {
    const digit = bytes[at]! - ZERO
    if (digit >= 0 && digit <= 9) {
      if (digits < HALF) high = (10 * high + digit) | 0
      else low = (10 * low + digit) | 0
      if (digits > 0 || digit > 0) digits++
      if (digits > MOST_DIGITS) return slowly(bytes, start, end)
    } else if (digit === POINT - ZERO && point === -1) point = at
    else break
  }
  let decimals = point === -1 ? 0 : at - 1 - point
  if (at < end) decimals -= exponentOf(bytes, at, end)
  if (!(decimals >= 0 && decimals < POWERS.length)) return slowly(bytes, start, end)
  const shift = POWERS[digits > HALF ? digits - HALF : 0]!
  const value =
    digits <= EXACT_DIGITS
      ? (high * shift + low) / POWERS[decimals]!
      : quotientOf(high, shift, low, POWERS[decimals]!)
  if (Number.isNaN(value)) return slowly(bytes, start, end)
  return negative ? -value : value
}

/** The exponent of e-05; NaN where something else stands there. */
function exponentOf(bytes: Uint8Array, start: number, end: number): number {
  if (bytes[start] !== EXPONENT) return Number.NaN
  const sign = bytes[start + 1]
  const first = sign === MINUS || sign === PLUS ? start + 2 : start + 1
  if (first === end) return Number.NaN
  let exponent = 0
  for (let at = first; at < end; at++) {
    const digit = bytes[at]! - ZERO
    if (digit < 0 || digit > 9) return Number.NaN
    exponent = 10 * exponent + digit
  }
  return sign === MINUS ? -exponent : exponent
}

function slowly(bytes: Uint8Array, start: number, end: number): number {
  return Number(Buffer.from(bytes.buffer, bytes.byteOffset + start, end - start).toString('latin1'))
}
