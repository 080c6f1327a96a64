import { describe, expect, it } from 'vitest'

import { otherReadings, steadiness } from '../../src/web/readings.ts'

interface Finding {
  readonly verdict: string
}

const words = ({ verdict }: Finding) => verdict

describe('other readings of the same tests', () => {
  it('say the verdict of each, and whether it is the same', () => {
    const beside = {
      withoutInterested: { verdict: 'open', changes: true },
      robust: { verdict: 'better', agrees: true },
    }
    expect(otherReadings<Finding>(beside, words).map((one) => [one.words, one.isSame])).toEqual([
      ['open', false],
      ['better', true],
    ])
  })

  it('are being worked out as long as they are null, and not there where they are missing', () => {
    const [only, ...rest] = otherReadings<Finding>({ robust: null }, words)
    expect(only).toMatchObject({ words: 'being worked out', isSame: null })
    expect(rest).toEqual([])
  })
})

describe('many findings in one sentence', () => {
  const same = { withoutInterested: { changes: false }, robust: { agrees: true } }

  it('names those that hang on which tests count', () => {
    const parted = { withoutInterested: { changes: false }, robust: { agrees: false } }
    const findings = [
      { name: 'Engine', ...same },
      { name: 'Frame', ...parted },
    ]
    expect(steadiness(findings)).toBe('It hangs on which tests count for: Frame.')
  })

  it('says when none does, when it is not known yet, and nothing without other readings', () => {
    expect(steadiness([{ name: 'Engine', ...same }])).toMatch(/^The same/)
    expect(steadiness([{ name: 'Engine', ...same, robust: null }])).toContain('being worked out')
    expect(steadiness([{ name: 'Engine' }])).toBe('')
  })
})
