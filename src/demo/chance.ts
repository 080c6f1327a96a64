import type { Pcg32 } from '../core/random/pcg32.ts'

/** A normal deviate of that standard deviation. */
export function normal(random: Pcg32, sd: number): number {
  return sd * random.normal()
}

/** To that many digits, as people write figures down. */
export function round(value: number, digits: number): number {
  return Number(value.toFixed(digits))
}
