import { describe, expect, it } from 'vitest'

import { ageOf } from '../../src/web/pages/mine/age.ts'

const MINUTE_MS = 60_000

describe('the age of what a device kept', () => {
  it.each([
    [-5, 'a moment ago'],
    [0.9, 'a moment ago'],
    [1, '1 minute ago'],
    [59.9, '59 minutes ago'],
    [60, '1 hour ago'],
    [23.9 * 60, '23 hours ago'],
    [24 * 60, '1 day ago'],
    [24 * 60 * 9, '9 days ago'],
  ])('after %d minutes is said as %s', (minutes, words) => {
    expect(ageOf(1e12, 1e12 + minutes * MINUTE_MS)).toBe(words)
  })
})
