import type { ForestRow } from '../../../charts/forest.ts'
import type { Answer, Schemas } from '../../api/client.ts'
import { counted } from '../../units.ts'

/** Standard uncertainties on each side that hold 95 % of a normal distribution. */
const COVERAGE = 1.96

/** A test as everybody sees it: not who, where or on which day. */
export type PublicTest = Extract<Answer<'/v1/submissions'>['items'][number], { view: 'public' }>

/** What one session has to say of a setup. */
export interface Session {
  readonly test: PublicTest
  readonly climbs: readonly Schemas['Normalized'][]
  readonly burns: readonly Schemas['Normalized'][]
  /** Mean of the climbs with the interval of one of them [m/s]; null without climbs. */
  readonly climb: { readonly mean: number; readonly low: number; readonly high: number } | null
}

export const AIR_WORDS: Readonly<Record<PublicTest['conditions']['airMotion'], string>> = {
  calm: 'calm',
  light: 'light',
  active: 'lively',
  thermic: 'thermals',
}

export const INTEREST_WORDS: Readonly<Record<PublicTest['interest'], string>> = {
  none: 'none',
  dealer: 'sells it',
  maker: 'makes it',
  sponsored: 'was given it',
}

export function sessionOf(test: PublicTest, setupId: string): Session {
  const runs = test.entries
    .filter((entry) => entry.setupId === setupId)
    .flatMap((entry) => entry.runs.map(({ normalized }) => normalized))
  const climbs = runs.filter(({ metric }) => metric === 'climbRate')
  const burns = runs.filter(({ metric }) => metric === 'fuelFlow')
  return { test, climbs, burns, climb: meanOf(climbs) }
}

function meanOf(climbs: readonly Schemas['Normalized'][]): Session['climb'] {
  if (climbs.length === 0) return null
  const mean = climbs.reduce((sum, { value }) => sum + value, 0) / climbs.length
  const half = COVERAGE * Math.max(...climbs.map(({ standardUncertainty }) => standardUncertainty))
  return { mean, low: mean - half, high: mean + half }
}

/** The climbs of a session as a line of a forest; none where it has none. */
export function rowOf(
  { test, climbs, climb }: Session,
  quantity: (dimension: 'height' | 'temperature', stored: number) => string,
  toReader: (value: number) => number,
): ForestRow[] {
  if (climb === null) return []
  const { elevationM, temperatureC } = test.conditions
  const many = counted(climbs.length, 'climb')
  const isFree = test.interest === 'none'
  return [
    {
      name: `${test.flownIn} + ${quantity('height', elevationM)}, ${quantity('temperature', temperatureC)}, ${many}`,
      estimate: toReader(climb.mean),
      low: toReader(climb.low),
      high: toReader(climb.high),
      ...(isFree
        ? {}
        : { note: `By somebody who ${INTEREST_WORDS[test.interest]}`, tone: 'quiet' }),
    },
  ]
}
