import { describe, expect, it } from 'vitest'

import { resolveSentence } from '../../../src/features/comparisons/wording-beside.ts'

describe('what would settle an open difference', () => {
  it('is advice as long as people might fly it', () => {
    expect(resolveSentence(1, 3)).toContain('one more session with both flown, 3 runs of each')
    expect(resolveSentence(50, 3)).toContain('about 50 more sessions with both flown')
    expect(resolveSentence(50, 3)).toContain('would settle it')
  })

  it('is said to be out of reach where nobody will, with the number', () => {
    const sentence = resolveSentence(555, 3)
    expect(sentence).toContain('about 555 more sessions')
    expect(sentence).toContain('more than anyone will fly')
  })

  it('is said not to be more flights where no number of them helps', () => {
    expect(resolveSentence(null, 3)).toContain('would not settle it')
  })
})
