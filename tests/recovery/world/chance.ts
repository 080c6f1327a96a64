import { Pcg32 } from '../../../src/core/random/pcg32.ts'

/** Draws for the world. Every draw is made whether or not its source is on. */
export class Chance {
  private readonly random: Pcg32

  constructor(seed: number, stream: number) {
    this.random = new Pcg32(seed, stream)
  }

  normal(sd: number, mean = 0): number {
    return mean + sd * this.random.normal()
  }

  /** Normal, but never further than two standard deviations from the mean. */
  clipped(sd: number, mean = 0): number {
    return mean + sd * Math.max(-2, Math.min(2, this.random.normal()))
  }

  uniform(low: number, high: number): number {
    return low + (high - low) * this.random.uniform()
  }

  chance(probability: number): boolean {
    return this.random.uniform() < probability
  }

  /** An integer from `least` to `most`, both included. */
  integer(least: number, most: number): number {
    return least + this.random.int(most - least + 1)
  }

  pick<T>(items: readonly T[]): T {
    return items[this.random.int(items.length)]!
  }

  shuffled<T>(items: readonly T[]): T[] {
    return this.random.shuffle([...items])
  }
}

/** As a display or a person rounds: to the nearest multiple of the step. */
export function rounded(value: number, step: number): number {
  return Number((Math.round(value / step) * step).toFixed(6))
}
