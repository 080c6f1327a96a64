import type { Schemas } from '../../api/client.ts'
import type { Dimension } from '../../units.ts'

export type RunKind = Schemas['NewSubmission']['entries'][number]['runs'][number]['kind']

/** A measured number of a run. `at` is its place in the run, as a JSON Pointer has it. */
export interface NumberSpec {
  readonly at: string
  readonly label: string
  readonly dimension?: Dimension
  readonly sign?: string
  readonly isOptional?: boolean
  readonly hint?: string
  /** What a new run starts with, in the unit of the interface. */
  readonly usual?: number
  /** A main reading: whoever knows how sure it is may say so. */
  readonly hasDoubt?: boolean
  /** Only where this choice of the run has this value. */
  readonly onlyIf?: readonly [at: string, value: string]
}

export interface ChoiceSpec {
  readonly at: string
  readonly label: string
  readonly choices: readonly (readonly [value: string, label: string])[]
  /** Sent as true and false. */
  readonly isYesNo?: boolean
}

export interface RunSpec {
  readonly label: string
  /** What was done, in a few words. */
  readonly about: string
  readonly numbers: readonly NumberSpec[]
  readonly choices: readonly ChoiceSpec[]
  readonly hasStopwatch: boolean
  readonly caution: string
}

const DURATION: NumberSpec = { at: 'durationS', label: 'Time', sign: 's', hasDoubt: true }
const RPM: NumberSpec = { at: 'rpm', label: 'Engine speed', sign: '1/min', isOptional: true }
const START_HEIGHT: NumberSpec = {
  at: 'startHeightAboveSiteM',
  label: 'Height above the field at the start',
  dimension: 'height',
  usual: 100,
}
const LEVEL: readonly NumberSpec[] = [
  { at: 'heightAboveSiteM', label: 'Mean height above the field', dimension: 'height', usual: 150 },
  {
    at: 'heightChangeM',
    label: 'Height at the end less that at the start',
    dimension: 'height',
    usual: 0,
  },
]
const HEIGHT_SOURCE: ChoiceSpec = {
  at: 'heightSource',
  label: 'Height was read from',
  choices: [
    ['barometric', 'Barometric altimeter'],
    ['barometricTemperatureCompensated', 'Barometric, corrected for temperature'],
    ['gnss', 'Satellite receiver'],
    ['unknown', 'Not known'],
  ],
}

const leg = (index: number): readonly NumberSpec[] => [
  { at: `legs/${index}/trackDeg`, label: `Leg ${index + 1}: direction over ground`, sign: '°' },
  {
    at: `legs/${index}/groundSpeedMps`,
    label: `Leg ${index + 1}: speed over ground`,
    dimension: 'speed',
    hasDoubt: true,
  },
]

/** The interface takes this many. */
export const LEGS = { least: 3, most: 12 } as const

/** The readings of a run with so many legs; other kinds have none. */
export function numbersOf(kind: RunKind, legs: number): readonly NumberSpec[] {
  const { numbers } = RUN_SPECS[kind]
  if (kind !== 'levelSpeed') return numbers
  const more = Array.from({ length: Math.max(0, legs - LEGS.least) }, (_, i) => leg(LEGS.least + i))
  return [...numbers.slice(0, 2 * LEGS.least), ...more.flat(), ...numbers.slice(2 * LEGS.least)]
}

/** What each kind of run asks for, in words of the field. */
export const RUN_SPECS: Readonly<Record<RunKind, RunSpec>> = {
  climb: {
    label: 'Full-throttle climb',
    about: 'The seconds a height gain took',
    numbers: [
      {
        at: 'heightGainM',
        label: 'Height gained',
        dimension: 'height',
        usual: 100,
        hasDoubt: true,
      },
      DURATION,
      START_HEIGHT,
      RPM,
    ],
    choices: [HEIGHT_SOURCE],
    hasStopwatch: true,
    caution:
      'Climb into wind, clear of people and obstacles, with height to turn back in. A helper on the ground may hold the watch.',
  },
  fuelBurn: {
    label: 'Fuel burned in level flight',
    about: 'The minutes a measured volume lasted',
    numbers: [
      { at: 'volumeMl', label: 'Fuel burned', dimension: 'fuelVolume', usual: 500, hasDoubt: true },
      DURATION,
      ...LEVEL,
      {
        at: 'fuelTemperatureC',
        label: 'Fuel temperature',
        dimension: 'temperature',
        isOptional: true,
      },
      RPM,
    ],
    choices: [],
    hasStopwatch: true,
    caution:
      'A burn to empty ends with the engine out: only where a landing without power is always in reach. Handle fuel away from hot parts.',
  },
  energyUse: {
    label: 'Energy used in level flight',
    about: 'Electric drive: watt-hours over a time',
    numbers: [
      { at: 'energyWh', label: 'Energy out of the battery', sign: 'Wh', hasDoubt: true },
      DURATION,
      ...LEVEL,
      { at: 'batteryStartV', label: 'Battery voltage at the start', sign: 'V' },
      { at: 'batteryEndV', label: 'Battery voltage at the end', sign: 'V' },
    ],
    choices: [],
    hasStopwatch: true,
    caution: 'Land with the reserve the maker of the battery asks for.',
  },
  staticPull: {
    label: 'Static pull',
    about: 'What a scale reads at full throttle',
    numbers: [
      { at: 'thrustN', label: 'Pull', dimension: 'force', hasDoubt: true },
      { at: 'headwindMps', label: 'Wind from ahead', dimension: 'speed', isOptional: true },
      { at: 'lineAngleDeg', label: 'Angle of the line', sign: '°', isOptional: true },
      RPM,
    ],
    choices: [],
    hasStopwatch: false,
    caution:
      'Tie the frame down, keep everybody out of the plane of the propeller and out of its blast, and have the kill switch in hand.',
  },
  soundLevel: {
    label: 'Sound level',
    about: 'A-weighted decibels',
    numbers: [
      { at: 'levelDbA', label: 'Level', sign: 'dB(A)', hasDoubt: true },
      { at: 'backgroundDbA', label: 'Background alone', sign: 'dB(A)', isOptional: true },
      {
        at: 'distanceM',
        label: 'Distance from the propeller hub',
        dimension: 'height',
        onlyIf: ['position', 'distance'],
      },
      RPM,
    ],
    choices: [
      {
        at: 'position',
        label: 'Measured',
        choices: [
          ['pilotEar', 'At the ear of the pilot'],
          ['distance', 'At a distance'],
        ],
      },
      {
        at: 'power',
        label: 'Engine gave',
        choices: [
          ['full', 'Full throttle'],
          ['level', 'What level flight needs'],
        ],
      },
      {
        at: 'instrument',
        label: 'Read with',
        choices: [
          ['phone', 'A phone'],
          ['class2', 'A sound level meter'],
        ],
      },
    ],
    hasStopwatch: false,
    caution:
      'Full power harms hearing within minutes: wear protection, and keep to the hours and limits of the place.',
  },
  sink: {
    label: 'Sink with the engine off',
    about: 'Gives the glide ratio of your wing as you fly it',
    numbers: [
      { at: 'heightLossM', label: 'Height lost', dimension: 'height', usual: 100, hasDoubt: true },
      DURATION,
      { ...START_HEIGHT, usual: 300 },
    ],
    choices: [HEIGHT_SOURCE],
    hasStopwatch: true,
    caution: 'Engine off only with a landing field in reach all the time.',
  },
  levelSpeed: {
    label: 'Level speed on three or more headings',
    about: 'Gives the trim speed, with the wind taken out',
    numbers: [
      ...leg(0),
      ...leg(1),
      ...leg(2),
      {
        at: 'heightAboveSiteM',
        label: 'Mean height above the field',
        dimension: 'height',
        isOptional: true,
      },
    ],
    choices: [],
    hasStopwatch: false,
    caution: 'Keep a good look-out while you read the instrument.',
  },
  tipClearance: {
    label: 'Propeller clearance',
    about: 'Gap between blade tip and frame',
    numbers: [
      { at: 'staticClearanceMm', label: 'Smallest gap at rest', sign: 'mm', hasDoubt: true },
      {
        at: 'loadedClearanceMm',
        label: 'The same under load',
        sign: 'mm',
        isOptional: true,
        hasDoubt: true,
      },
    ],
    choices: [
      {
        at: 'contactSeen',
        label: 'Did the propeller touch, or is there a trace of it?',
        choices: [
          ['false', 'No'],
          ['true', 'Yes'],
        ],
        isYesNo: true,
      },
    ],
    hasStopwatch: false,
    caution:
      'Measure under load with the engine stopped and the frame pulled by hand or strap; never reach near a turning propeller.',
  },
}

export const RUN_KINDS = Object.keys(RUN_SPECS) as RunKind[]
