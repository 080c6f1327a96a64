import { describe, expect, it } from 'vitest'

import { isModerator, roleOf } from '../../src/web/api/role.ts'
import { oddRows } from '../../src/web/pages/reviews/odd-rows.ts'
import {
  actionWords,
  choicesFor,
  inWords,
  placesIn,
  titleOf,
} from '../../src/web/pages/reviews/review-words.ts'

const TEXT =
  'Among the climbs this session stands out. The run at /entries/1/runs/0 is 4.2 standard deviations higher than all other runs suggest.'

const finding = (liftedAt: string | null) => ({
  id: 'f',
  setupId: 's',
  state: 'advisory' as const,
  reason: '',
  createdAt: '',
  liftedAt,
  liftedById: null,
  liftedReason: null,
})

const decisionsOf = (review: Parameters<typeof choicesFor>[0]) =>
  choicesFor(review).map(({ decision }) => decision)

describe('a review in words', () => {
  it('says which run is meant, counted as people count', () => {
    expect(placesIn(TEXT)).toEqual([{ entry: 1, run: 0 }])
    expect(inWords(TEXT, (entry) => `setup ${entry}`)).toBe(
      'Among the climbs this session stands out. Run 1 with setup 1 is 4.2 standard deviations higher than all other runs suggest.',
    )
  })

  it('leaves a text without places as it is', () => {
    expect(inWords('A hose came loose.', () => '')).toBe('A hose came loose.')
  })

  it('tells a report of a person from a measurement', () => {
    expect(titleOf({ kind: 'unsafe', origin: 'person' })).toBe('Reported as unsafe')
    expect(titleOf({ kind: 'unsafe', origin: 'measurement' })).toBe(
      'A measurement speaks against flying',
    )
  })

  it('shows an action it has no words for by its own name', () => {
    expect(actionWords('setup.merged-again')).toBe('setup.merged-again')
  })
})

describe('what can be decided', () => {
  it('is of evidence where a session is odd, and of safety otherwise', () => {
    expect(decisionsOf({ kind: 'outlier', setAside: false, findings: [] })).toEqual([
      'keep',
      'setAside',
    ])
    expect(decisionsOf({ kind: 'wrong', setAside: false, findings: [] })).toEqual([
      'doNotFly',
      'advisory',
      'dismiss',
    ])
  })

  it('is to lift only where something is in force', () => {
    const review = { kind: 'unsafe', setAside: false } as const
    const lifted = finding('2026-05-01T00:00:00Z')
    expect(decisionsOf({ ...review, findings: [lifted] })).not.toContain('lift')
    expect(decisionsOf({ ...review, findings: [lifted, finding(null)] })).toContain('lift')
  })
})

describe('an odd session in a chart', () => {
  const run = (metric: 'climbRate' | 'fuelFlow', value: number) => ({
    normalized: { metric, value, standardUncertainty: 0.1 },
  })
  const session = {
    entries: [
      { setupId: 'a', runs: [run('climbRate', 2), run('fuelFlow', 3), run('climbRate', 4)] },
      { setupId: 'b', runs: [run('fuelFlow', 3)] },
    ],
  }
  const rows = oddRows(session, {
    metric: 'climbRate',
    known: [{ setupId: 'a', name: 'A', value: 2.1, interval95: [2, 2.2] }],
    odd: [{ entry: 0, run: 2 }],
    toReader: (value) => 10 * value,
  })

  it('has the runs of the one metric below what all tests say of their setup', () => {
    expect(rows.map(({ name, estimate }) => [name, estimate])).toEqual([
      ['A', 21],
      ['Run 1 of this session', 20],
      ['Run 3 of this session', 40],
    ])
  })

  it('marks the run that stands out, and no other', () => {
    expect(rows.map(({ tone = 'plain' }) => tone)).toEqual(['plain', 'quiet', 'odd'])
  })

  it('gives each run its 95 % interval', () => {
    expect(rows[1]!.low).toBeCloseTo(10 * (2 - 1.96 * 0.1), 9)
    expect(rows[1]!.high).toBeCloseTo(10 * (2 + 1.96 * 0.1), 9)
  })
})

describe('the role in a token', () => {
  const tokenWith = (claims: object) => ({
    accessToken: `head.${Buffer.from(JSON.stringify(claims)).toString('base64url')}.mark`,
  })

  it('opens the page to moderators and administrators', () => {
    expect(isModerator(tokenWith({ role: 'moderator' }))).toBe(true)
    expect(isModerator(tokenWith({ role: 'admin', name: 'ä?ÿ>' }))).toBe(true)
    expect(isModerator(tokenWith({ role: 'pilot' }))).toBe(false)
    expect(isModerator(null)).toBe(false)
  })

  it('is nothing where the token is none', () => {
    expect(roleOf({ accessToken: 'nonsense' })).toBeNull()
    expect(roleOf({ accessToken: 'a.%%%.b' })).toBeNull()
  })
})
