import {
  AIR_MOTIONS,
  boundsLabel,
  ELEVATION_BOUNDS,
  INTERESTS,
  interestLabel,
  MASS_BOUNDS,
  WING_AREA_BOUNDS,
  wordsLabel,
} from '../tables/classes.ts'

/** Columns of `runs` that somebody who saw or read about a flight may know. */
export const QUASI_IDENTIFIERS = [
  'interest',
  'flown_year',
  'flown_month',
  'flown_from',
  'flown_to',
  'all_up_mass_class',
  'elevation_class',
  'wing_area_class',
  'air_motion',
] as const

export type QuasiIdentifier = (typeof QUASI_IDENTIFIERS)[number]

/** What is shown of an attribute for a range of its codes. */
export type Shown = Readonly<Partial<Record<QuasiIdentifier, string | null>>>

/** Something that may be known of a flight, in ordered classes. */
export interface Attribute {
  /** Column of dataset_entry: 0 for unknown, else from 1. */
  readonly codeColumn: string
  /** Column of `runs` that stands for it in counts. */
  readonly column: QuasiIdentifier
  readonly levels: number
  /** How much its being kept is worth to who studies the data, against the others. */
  readonly weight: number
  readonly show: (low: number, high: number) => Shown
}

/** Months since the year 0, and how many there are. */
export interface MonthRange {
  readonly first: number
  readonly count: number
}

/**
 * Mass decides climb and flow and weighs most; place, time and wing say what air and what loading;
 * motion of the air stands in the uncertainty already, and interest hardly ever varies.
 */
export function attributesFor(months: MonthRange): Attribute[] {
  return [
    {
      codeColumn: 'mass_code',
      column: 'all_up_mass_class',
      levels: MASS_BOUNDS.length,
      weight: 3,
      show: (low, high) => ({ all_up_mass_class: boundsLabel(MASS_BOUNDS, low, high) }),
    },
    {
      codeColumn: 'elevation_code',
      column: 'elevation_class',
      levels: ELEVATION_BOUNDS.length,
      weight: 2,
      show: (low, high) => ({ elevation_class: boundsLabel(ELEVATION_BOUNDS, low, high) }),
    },
    {
      codeColumn: 'wing_area_code',
      column: 'wing_area_class',
      levels: WING_AREA_BOUNDS.length,
      weight: 2,
      show: (low, high) => ({ wing_area_class: boundsLabel(WING_AREA_BOUNDS, low, high) }),
    },
    {
      codeColumn: 'month',
      column: 'flown_month',
      levels: months.count,
      weight: 2,
      show: (low, high) => monthsShown(months, low, high),
    },
    {
      codeColumn: 'interest_code',
      column: 'interest',
      levels: INTERESTS.length,
      weight: 1,
      show: (low, high) => ({ interest: interestLabel(low, high) }),
    },
    {
      codeColumn: 'air_motion_code',
      column: 'air_motion',
      levels: AIR_MOTIONS.length,
      weight: 1,
      show: (low, high) => ({ air_motion: wordsLabel(AIR_MOTIONS, low, high) }),
    },
  ]
}

function monthsShown({ first, count }: MonthRange, low: number, high: number): Shown {
  if (low === 1 && high === count && count > 1) {
    return { flown_year: null, flown_month: null, flown_from: null, flown_to: null }
  }
  const [from, to] = [monthName(first + low - 1), monthName(first + high - 1)]
  const [year] = from.split('-')
  return {
    flown_year: to.startsWith(`${year}-`) ? year! : null,
    flown_month: from === to ? from : null,
    flown_from: from,
    flown_to: to,
  }
}

function monthName(month: number): string {
  const year = String(Math.floor(month / 12)).padStart(4, '0')
  return `${year}-${String((month % 12) + 1).padStart(2, '0')}`
}
