import { BATTERY, RPM } from './parts.ts'
import type { ChoiceSpec, NumberSpec, RunKind, RunSpec } from './spec.ts'

const DURATION: NumberSpec = { at: 'durationS', label: 'Time', sign: 's' }
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

const FUEL_METHOD: ChoiceSpec = {
  at: 'method',
  label: 'The fuel was measured',
  choices: [
    ['measuredTank', 'As a measured filling, flown until the engine stopped'],
    ['refill', 'By filling up again to the mark it started from'],
  ],
}
const AT_TRIM: ChoiceSpec = {
  at: 'atTrim',
  label: 'Flown',
  choices: [
    ['true', 'At trim, hands off'],
    ['false', 'Faster or slower than trim'],
  ],
  isYesNo: true,
}

export const leg = (index: number): readonly NumberSpec[] => [
  { at: `legs/${index}/trackDeg`, label: `Leg ${index + 1}: direction over ground`, sign: '°' },
  {
    at: `legs/${index}/groundSpeedMps`,
    label: `Leg ${index + 1}: speed over ground`,
    dimension: 'speed',
  },
]

/** What is measured in flight. */
export const FLIGHT_SPECS = {
  climb: {
    label: 'Full-throttle climb',
    about: 'The seconds a height gain took',
    numbers: [
      {
        at: 'heightGainM',
        label: 'Height gained',
        dimension: 'height',
        usual: 100,
      },
      DURATION,
      START_HEIGHT,
      RPM,
      ...BATTERY,
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
      { at: 'volumeMl', label: 'Fuel burned', dimension: 'fuelVolume', usual: 500 },
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
    choices: [FUEL_METHOD],
    hasStopwatch: true,
    caution:
      'A burn to empty ends with the engine out: only where a landing without power is always in reach. Handle fuel away from hot parts.',
  },
  energyUse: {
    label: 'Energy used in level flight',
    about: 'Electric drive: watt-hours over a time',
    numbers: [
      { at: 'energyWh', label: 'Energy out of the battery', sign: 'Wh' },
      DURATION,
      ...LEVEL,
      { at: 'batteryStartV', label: 'Battery voltage at the start', sign: 'V' },
      { at: 'batteryEndV', label: 'Battery voltage at the end', sign: 'V' },
      RPM,
    ],
    choices: [],
    hasStopwatch: true,
    caution: 'Land with the reserve the maker of the battery asks for.',
  },
  sink: {
    label: 'Sink with the engine off',
    about: 'Gives the glide ratio of your wing as you fly it',
    numbers: [
      { at: 'heightLossM', label: 'Height lost', dimension: 'height', usual: 100 },
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
    choices: [AT_TRIM],
    hasStopwatch: false,
    caution: 'Keep a good look-out while you read the instrument.',
  },
} satisfies Partial<Record<RunKind, RunSpec>>
