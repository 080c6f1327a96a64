import {
  celsiusFromFahrenheit,
  KG_PER_LB,
  LITRES_PER_US_GALLON,
  M2_PER_SQUARE_FOOT,
  METRES_PER_FOOT,
  MPS_PER_FPM,
  MPS_PER_KMH,
  MPS_PER_KNOT,
  MPS_PER_MPH,
  NEWTONS_PER_KGF,
  PA_PER_HPA,
  PA_PER_INHG,
} from '../core/units.ts'

/** What is measured, where readers differ in the unit they like. */
export type Dimension =
  | 'mass'
  | 'height'
  | 'climbRate'
  | 'speed'
  | 'temperature'
  | 'pressure'
  | 'force'
  | 'fuelVolume'
  | 'tank'
  | 'fuelFlow'
  | 'electricPower'
  | 'area'
  | 'distance'

/** A unit as a reader sees it, beside the unit of the interface, which every dimension has one of. */
export interface Unit {
  readonly id: string
  /** Written after a number. */
  readonly sign: string
  /** Said aloud, and in lists of choices. */
  readonly name: string
  readonly toStored: (value: number) => number
  readonly toReader: (stored: number) => number
  /** Decimals that are worth reading. */
  readonly decimals: number
}

const times = (
  [id, sign, name]: readonly [string, string, string],
  factor: number,
  decimals: number,
): Unit => ({
  id,
  sign,
  name,
  decimals,
  toStored: (value) => value * factor,
  toReader: (stored) => stored / factor,
})

const same = (id: string, name: string, decimals: number): Unit =>
  times([id, id, name], 1, decimals)

const FAHRENHEIT: Unit = {
  id: '°F',
  sign: '°F',
  name: 'degrees Fahrenheit',
  decimals: 0,
  toStored: celsiusFromFahrenheit,
  toReader: (celsius) => celsius * 1.8 + 32,
}

const ML_PER_US_FLUID_OUNCE = (LITRES_PER_US_GALLON * 1000) / 128

/** The units of each dimension; the first is that of the interface. */
export const UNITS: Readonly<Record<Dimension, readonly [Unit, ...Unit[]]>> = {
  mass: [same('kg', 'kilograms', 1), times(['lb', 'lb', 'pounds'], KG_PER_LB, 0)],
  height: [same('m', 'metres', 0), times(['ft', 'ft', 'feet'], METRES_PER_FOOT, 0)],
  climbRate: [
    same('m/s', 'metres per second', 2),
    times(['ft/min', 'ft/min', 'feet per minute'], MPS_PER_FPM, 0),
  ],
  speed: [
    same('m/s', 'metres per second', 1),
    times(['km/h', 'km/h', 'kilometres per hour'], MPS_PER_KMH, 0),
    times(['kn', 'kn', 'knots'], MPS_PER_KNOT, 1),
    times(['mph', 'mph', 'miles per hour'], MPS_PER_MPH, 1),
  ],
  temperature: [same('°C', 'degrees Celsius', 1), FAHRENHEIT],
  pressure: [
    same('hPa', 'hectopascals', 0),
    times(['inHg', 'inHg', 'inches of mercury'], PA_PER_INHG / PA_PER_HPA, 2),
  ],
  force: [
    same('N', 'newtons', 0),
    times(['kgf', 'kgf', 'kilograms-force'], NEWTONS_PER_KGF, 1),
    times(['lbf', 'lbf', 'pounds-force'], NEWTONS_PER_KGF * KG_PER_LB, 0),
  ],
  fuelVolume: [
    same('mL', 'millilitres', 0),
    times(['fl oz', 'US fl oz', 'US fluid ounces'], ML_PER_US_FLUID_OUNCE, 1),
  ],
  tank: [same('L', 'litres', 1), times(['gal', 'US gal', 'US gallons'], LITRES_PER_US_GALLON, 1)],
  fuelFlow: [
    same('L/h', 'litres per hour', 2),
    times(['gal/h', 'US gal/h', 'US gallons per hour'], LITRES_PER_US_GALLON, 2),
  ],
  electricPower: [same('W', 'watts', 0), times(['kW', 'kW', 'kilowatts'], 1000, 2)],
  area: [
    same('m²', 'square metres', 1),
    times(['ft²', 'ft²', 'square feet'], M2_PER_SQUARE_FOOT, 0),
  ],
  distance: [
    same('km', 'kilometres', 0),
    times(['mi', 'mi', 'miles'], MPS_PER_MPH / MPS_PER_KMH, 0),
    times(['NM', 'NM', 'nautical miles'], MPS_PER_KNOT / MPS_PER_KMH, 0),
  ],
}

/** The unit for differences: 9 °F more are 5 °C more, though 9 °F are not 5 °C. */
export function spanOf(unit: Unit): Unit {
  return {
    ...unit,
    toStored: (span) => unit.toStored(span) - unit.toStored(0),
    toReader: (span) => unit.toReader(span) - unit.toReader(0),
  }
}

/** The unit of that name; that of the interface where there is none of it. */
export function unitOf(dimension: Dimension, id: string | undefined): Unit {
  const units = UNITS[dimension]
  return units.find((unit) => unit.id === id) ?? units[0]
}

/** A number as people write it, with comma or point; null for what is none. */
export function readNumber(text: string): number | null {
  const plain = text.trim().replace(',', '.').replace('−', '-')
  if (!/^[+-]?(\d+\.?\d*|\.\d+)$/.test(plain)) return null
  return Number(plain)
}

/** A number as it is written, with a true minus sign. */
export function writeNumber(value: number, decimals: number): string {
  const text = Math.abs(value).toFixed(decimals)
  return value < 0 && Number(text) !== 0 ? `−${text}` : text
}

/** What stands in a field: the text as typed and its unit, and the stored value they stand for. */
export interface Entered {
  readonly text: string
  readonly unit: string
  /** In the unit of the interface; null while the text is no number. */
  readonly stored: number | null
}

export const NOTHING_ENTERED: Entered = { text: '', unit: '', stored: null }

/** What a text in a unit stands for. */
export function entered(text: string, unit: Unit): Entered {
  const value = readNumber(text)
  return { text, unit: unit.id, stored: value === null ? null : tidy(unit.toStored(value)) }
}

/** How many of what: 1 run, 2 runs. */
export function counted(count: number, noun: string): string {
  return `${count} ${noun}${count === 1 ? '' : 's'}`
}

/** A stored value as if it had been typed. */
export function enteredFrom(stored: number | undefined, unit: Unit): Entered {
  if (stored === undefined) return NOTHING_ENTERED
  return { text: textOf(stored, unit), unit: unit.id, stored }
}

/** The text of a field when read in a unit: as it was typed if it was typed in that one. */
export function textIn(value: Entered, unit: Unit): string {
  if (value.stored === null || value.unit === unit.id) return value.text
  return textOf(value.stored, unit)
}

function textOf(stored: number, unit: Unit): string {
  return String(Number(unit.toReader(stored).toFixed(unit.decimals + 2)))
}

/** Without the tail that binary fractions leave: 180 lb are 81.646627 kg, not …00000001. */
function tidy(value: number): number {
  return Number(value.toPrecision(9))
}
