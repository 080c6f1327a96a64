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

/** Names of classes, for an enumeration. */
export function namesOf(bounds: readonly ClassBound[]): [string, ...string[]] {
  return bounds.map(({ name }) => name) as [string, ...string[]]
}

/** The class of a number, as SQL; no number has no class. */
export function classSql(expression: string, bounds: readonly ClassBound[]): string {
  const cases = bounds.map(({ name, below }) =>
    Number.isFinite(below)
      ? `WHEN (${expression}) < ${below} THEN '${name}'`
      : `WHEN (${expression}) IS NOT NULL THEN '${name}'`,
  )
  return `CASE ${cases.join(' ')} END`
}
