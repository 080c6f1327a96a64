import { normalQuantile } from '../distributions/normal.ts'
import { OutOfRangeError } from '../errors.ts'

/** 2⁻⁵³, the spacing of the uniform numbers. */
const TWO_TO_MINUS_53 = 2 ** -53
const TWO_TO_32 = 2 ** 32

/** 6364136223846793005, the multiplier of the 64-bit linear congruential generator, in halves. */
const MULTIPLIER_HIGH = 0x5851f42d
const MULTIPLIER_LOW = 0x4c957f2d

/**
 * Seeded random numbers: 64-bit linear congruential state, permuted to 32 bits (PCG-XSH-RR).
 * The same seed and stream give the same numbers on every machine. Not for secrets.
 *
 * @source M. E. O'Neill, PCG: A Family of Simple Fast Space-Efficient Statistically Good Algorithms
 *   for Random Number Generation, Harvey Mudd College HMC-CS-2014-0905, 2014; seeding as in the
 *   author's pcg-c-basic
 * @example new Pcg32(42, 54).nextUint32() // 0xa15c02b7
 */
export class Pcg32 {
  private high = 0
  private low = 0
  private readonly incrementHigh: number
  private readonly incrementLow: number

  /**
   * @param seed start of the sequence, integer in [0, 2⁵³ − 1]
   * @param stream which of the independent sequences, integer in [0, 2⁵³ − 1]
   * @throws {OutOfRangeError} if either is not such an integer
   */
  constructor(seed: number, stream = 0) {
    requireSafeInteger('seed', seed)
    requireSafeInteger('stream', stream)
    this.incrementLow = ((stream << 1) | 1) >>> 0 // low word of 2·stream + 1
    this.incrementHigh = Math.floor((stream * 2) / TWO_TO_32) >>> 0
    this.advance()
    const low = this.low + (seed % TWO_TO_32)
    this.low = low >>> 0
    this.high = (this.high + Math.floor(seed / TWO_TO_32) + (low >= TWO_TO_32 ? 1 : 0)) >>> 0
    this.advance()
  }

  /** Next integer, uniform on [0, 2³² − 1]. */
  nextUint32(): number {
    const { high, low } = this
    this.advance()
    // ((state >> 18) ^ state) >> 27, low 32 bits
    const shiftedHigh = high >>> 18
    const shiftedLow = ((high << 14) | (low >>> 18)) >>> 0
    const mixedHigh = (shiftedHigh ^ high) >>> 0
    const mixedLow = (shiftedLow ^ low) >>> 0
    const word = ((mixedHigh << 5) | (mixedLow >>> 27)) >>> 0
    const rotation = high >>> 27 // state >> 59
    return ((word >>> rotation) | (word << (-rotation & 31))) >>> 0
  }

  /** Uniform on (0, 1), never 0 or 1: an odd multiple of 2⁻⁵³. */
  uniform(): number {
    const upper = this.nextUint32() >>> 6 // 26 bits
    const lower = this.nextUint32() >>> 6 // 26 bits
    return (2 * (upper * 2 ** 26 + lower) + 1) * TWO_TO_MINUS_53
  }

  /** Standard normal, by inversion of one uniform number. */
  normal(): number {
    return normalQuantile(this.uniform())
  }

  /**
   * Uniform on the integers 0 … bound − 1, without bias.
   *
   * @param bound integer in [1, 2³²]
   */
  int(bound: number): number {
    if (!(Number.isInteger(bound) && bound >= 1 && bound <= TWO_TO_32)) {
      throw new OutOfRangeError('bound', bound, 1, TWO_TO_32)
    }
    const threshold = TWO_TO_32 % bound // numbers below it would favour small results
    for (;;) {
      const value = this.nextUint32()
      if (value >= threshold) return value % bound
    }
  }

  /**
   * Puts items in random order, in place; every order is equally likely.
   *
   * @param items any array. Mutated.
   * @returns the same array
   */
  shuffle<T>(items: T[]): T[] {
    for (let last = items.length - 1; last > 0; last--) {
      const other = this.int(last + 1)
      const kept = items[last]!
      items[last] = items[other]!
      items[other] = kept
    }
    return items
  }

  /** state = state · multiplier + increment (mod 2⁶⁴), in 32-bit halves. */
  private advance(): void {
    const { high, low } = this
    const product = multiply32(low, MULTIPLIER_LOW)
    const productHigh =
      product.high + Math.imul(high, MULTIPLIER_LOW) + Math.imul(low, MULTIPLIER_HIGH)
    const sumLow = product.low + this.incrementLow
    this.low = sumLow >>> 0
    this.high = (productHigh + this.incrementHigh + (sumLow >= TWO_TO_32 ? 1 : 0)) >>> 0
  }
}

/** Exact 64-bit product of two unsigned 32-bit numbers. */
function multiply32(a: number, b: number): { high: number; low: number } {
  const aHigh = a >>> 16
  const aLow = a & 0xffff
  const bHigh = b >>> 16
  const bLow = b & 0xffff
  const lowest = aLow * bLow
  const middle = aHigh * bLow + (lowest >>> 16)
  const middle2 = aLow * bHigh + (middle % 0x10000)
  return {
    high: aHigh * bHigh + Math.floor(middle / 0x10000) + Math.floor(middle2 / 0x10000),
    low: Math.imul(a, b) >>> 0,
  }
}

function requireSafeInteger(name: string, value: number): void {
  if (!(Number.isSafeInteger(value) && value >= 0)) {
    throw new OutOfRangeError(name, value, 0, Number.MAX_SAFE_INTEGER)
  }
}
