/** A class by its name and the value it ends before. */
export interface ClassBound {
  readonly name: string
  readonly below: number
}

/** Classes of all-up mass [kg]: those of the rankings. */
export const MASS_BOUNDS: readonly ClassBound[] = [
  { name: 'under100', below: 100 },
  { name: '100to120', below: 120 },
  { name: '120to140', below: 140 },
  { name: '140to170', below: 170 },
  { name: 'tandem', below: Number.POSITIVE_INFINITY },
]

/** Classes of the elevation of the field [m]. */
export const ELEVATION_BOUNDS: readonly ClassBound[] = [
  { name: 'under300', below: 300 },
  { name: '300to800', below: 800 },
  { name: '800to1500', below: 1500 },
  { name: 'over1500', below: Number.POSITIVE_INFINITY },
]

/** Classes of the flat area of the wing [m²]. */
export const WING_AREA_BOUNDS: readonly ClassBound[] = [
  { name: 'under22', below: 22 },
  { name: '22to26', below: 26 },
  { name: '26to30', below: 30 },
  { name: 'over30', below: Number.POSITIVE_INFINITY },
]

/** Names of the pilot's word for the motion of the air, from still to lively. */
export const AIR_MOTIONS = ['calm', 'light', 'active', 'thermic'] as const

/** Names of interests, from none to the strongest. */
export const INTERESTS = ['none', 'sponsored', 'dealer', 'maker'] as const

/** Where more than one interest stands together, none is not among them. */
const INTERESTED = 'interested'

/**
 * What a row shows for classes `low` to `high` (the first is 1): the name of the class, of the range
 * (100to140, under120, over800), or null for all of them and for what is not known (0).
 */
export function boundsLabel(
  bounds: readonly ClassBound[],
  low: number,
  high: number,
): string | null {
  if (low === 0 || (low === 1 && high === bounds.length)) return null
  if (low === high) return bounds[low - 1]!.name
  if (low === 1) return `under${bounds[high - 1]!.below}`
  const from = bounds[low - 2]!.below
  return high === bounds.length ? `over${from}` : `${from}to${bounds[high - 1]!.below}`
}

/** The same for words in an order: calmToActive. */
export function wordsLabel(words: readonly string[], low: number, high: number): string | null {
  if (low === 0 || (low === 1 && high === words.length)) return null
  if (low === high) return words[low - 1]!
  const last = words[high - 1]!
  return `${words[low - 1]}To${last[0]!.toUpperCase()}${last.slice(1)}`
}

/** The same for interests: one of them, or that there is one. */
export function interestLabel(low: number, high: number): string | null {
  if (low === high) return low === 0 ? null : INTERESTS[low - 1]!
  return low > 1 ? INTERESTED : null
}

/** Every name that rows may show, classes before ranges. */
export function labelsOf(
  levels: number,
  label: (low: number, high: number) => string | null,
): [string, ...string[]] {
  const labels = new Set<string>()
  for (let width = 0; width < levels; width++) {
    for (let low = 1; low + width <= levels; low++) {
      const name = label(low, low + width)
      if (name !== null) labels.add(name)
    }
  }
  return [...labels] as [string, ...string[]]
}

/** The number of the class of a value, from 1, as SQL; 0 where there is no value. */
export function classCodeSql(expression: string, bounds: readonly ClassBound[]): string {
  const ends = bounds.slice(0, -1).map(({ below }) => below)
  return `COALESCE(width_bucket((${expression})::float8, ARRAY[${ends}]::float8[]) + 1, 0)`
}

/** The number of a word, from 1, as SQL; 0 where there is none. */
export function wordCodeSql(expression: string, words: readonly string[]): string {
  return `COALESCE(array_position(ARRAY['${words.join("','")}'], ${expression}), 0)`
}
