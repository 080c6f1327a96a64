import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { Pcg32 } from '../../../src/core/random/pcg32.ts'

const draws = (random: Pcg32, count: number) =>
  Array.from({ length: count }, () => random.nextUint32())

describe('Pcg32', () => {
  // Source: output of pcg32-demo in the author's pcg-c-basic, seed 42, sequence 54 (from memory;
  // the six numbers also stand in the tests of other public implementations).
  it('gives the published sequence of seed 42, stream 54', () => {
    expect(draws(new Pcg32(42, 54), 6)).toEqual([
      0xa15c02b7, 0x7b47f409, 0xba1d3330, 0x83d2f293, 0xbfa4784b, 0xcbed606e,
    ])
  })

  it('follows the 64-bit recurrence for any seed and stream', () => {
    const mask = (1n << 64n) - 1n
    const reference = (seed: number, stream: number, count: number) => {
      const increment = ((BigInt(stream) << 1n) | 1n) & mask
      const step = (state: bigint) => (state * 6364136223846793005n + increment) & mask
      let state = step((step(0n) + BigInt(seed)) & mask)
      return Array.from({ length: count }, () => {
        const word = (((state >> 18n) ^ state) >> 27n) & 0xffffffffn
        const rotation = state >> 59n
        state = step(state)
        return Number(((word >> rotation) | (word << (-rotation & 31n))) & 0xffffffffn)
      })
    }
    fc.assert(
      fc.property(fc.maxSafeNat(), fc.maxSafeNat(), (seed, stream) => {
        expect(draws(new Pcg32(seed, stream), 8)).toEqual(reference(seed, stream, 8))
      }),
    )
  })

  it('gives uniform numbers strictly between 0 and 1 with the right moments', () => {
    const random = new Pcg32(1)
    const values = Array.from({ length: 20_000 }, () => random.uniform())
    expect(values.every((x) => x > 0 && x < 1)).toBe(true)
    const mean = values.reduce((sum, x) => sum + x, 0) / values.length
    const variance = values.reduce((sum, x) => sum + (x - mean) ** 2, 0) / values.length
    // Standard errors: √(1/12/n) = 0.0020 and √(1/180/n) = 0.00053; four of each.
    expect(Math.abs(mean - 0.5)).toBeLessThan(0.0082)
    expect(Math.abs(variance - 1 / 12)).toBeLessThan(0.0022)
  })

  it('gives normal numbers with the right moments', () => {
    const random = new Pcg32(2)
    const values = Array.from({ length: 20_000 }, () => random.normal())
    const moment = (power: number) => values.reduce((sum, x) => sum + x ** power, 0) / values.length
    // Standard errors √(1/n), √(2/n), √(15/n), √(96/n); four of each.
    expect(Math.abs(moment(1))).toBeLessThan(0.029)
    expect(Math.abs(moment(2) - 1)).toBeLessThan(0.04)
    expect(Math.abs(moment(3))).toBeLessThan(0.11)
    expect(Math.abs(moment(4) - 3)).toBeLessThan(0.28)
  })

  it('gives each integer below the bound equally often', () => {
    const random = new Pcg32(3)
    const counts = new Array<number>(7).fill(0)
    for (let i = 0; i < 14_000; i++) counts[random.int(7)]!++
    // 2000 each, standard error √(14000 · 6/49) = 41; four and a half of them for seven counts.
    for (const count of counts) expect(Math.abs(count - 2000)).toBeLessThan(186)
  })

  it('shuffles in place, keeps all items and reaches every order', () => {
    const random = new Pcg32(4)
    const seen = new Set<string>()
    for (let i = 0; i < 500; i++) {
      const items = ['a', 'b', 'c', 'd']
      expect(random.shuffle(items)).toBe(items)
      expect([...items].sort()).toEqual(['a', 'b', 'c', 'd'])
      seen.add(items.join(''))
    }
    expect(seen.size).toBe(24)
  })

  it('refuses seeds that are no integers and bounds without integers below', () => {
    expect(() => new Pcg32(-1)).toThrow('seed')
    expect(() => new Pcg32(0.5)).toThrow('seed')
    expect(() => new Pcg32(1, Number.NaN)).toThrow('stream')
    expect(() => new Pcg32(1).int(0)).toThrow('bound')
  })
})
