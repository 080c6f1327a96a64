import { describe, expect, it } from 'vitest'

import { probabilityText } from '../../../src/core/comparison/probability-text.ts'

describe('a probability in words', () => {
  it.each([
    [0, 'less than 0.1 %'],
    [0.0009, 'less than 0.1 %'],
    [0.001, '0.1 %'],
    [0.0049, '0.5 %'],
    [0.005, '1 %'],
    [0.62, '62 %'],
    [0.9949, '99 %'],
    [0.9956, '99.6 %'],
    [0.999, '99.9 %'],
    [0.99901, 'more than 99.9 %'],
    [1, 'more than 99.9 %'],
  ])('%d is never made a certainty by rounding: %s', (probability, words) => {
    expect(probabilityText(probability)).toBe(words)
  })
})
