import {
  celsiusFromFahrenheit,
  KELVIN_OFFSET,
  KG_PER_LB,
  KW_PER_HORSEPOWER,
  LITRES_PER_US_GALLON,
  M2_PER_SQUARE_FOOT,
  METRES_PER_FOOT,
  MPS_PER_FPM,
  MPS_PER_KMH,
  MPS_PER_KNOT,
  MPS_PER_MPH,
  NEWTONS_PER_KGF,
  NEWTONS_PER_LBF,
  PA_PER_HPA,
  PA_PER_INHG,
  PA_PER_MMHG,
} from '../units.ts'
import { isInside, type Limit } from './limits.ts'

/** A unit somebody may have used by mistake, with the way back. */
interface OtherUnit {
  readonly name: string
  readonly convert: (value: number) => number
}

const times = (name: string, factor: number): OtherUnit => ({
  name,
  convert: (value) => value * factor,
})

/** Units easily taken for the one asked for, the likeliest first. */
const OTHER_UNITS: Readonly<Record<string, readonly OtherUnit[]>> = {
  m: [times('feet', METRES_PER_FOOT), times('kilometres', 1000), times('centimetres', 0.01)],
  kg: [times('pounds', KG_PER_LB), times('newtons', 1 / NEWTONS_PER_KGF), times('grams', 0.001)],
  'm/s': [
    times('km/h', MPS_PER_KMH),
    times('ft/min', MPS_PER_FPM),
    times('knots', MPS_PER_KNOT),
    times('mph', MPS_PER_MPH),
  ],
  hPa: [
    times('pascals', 1 / PA_PER_HPA),
    times('kilopascals', 1000 / PA_PER_HPA),
    times('inches of mercury', PA_PER_INHG / PA_PER_HPA),
    times('millimetres of mercury', PA_PER_MMHG / PA_PER_HPA),
  ],
  '°C': [
    { name: 'degrees Fahrenheit', convert: celsiusFromFahrenheit },
    { name: 'kelvin', convert: (value) => value - KELVIN_OFFSET },
  ],
  '%': [times('a fraction of 1', 100)],
  'm²': [times('square feet', M2_PER_SQUARE_FOOT)],
  mL: [times('litres', 1000), times('US gallons', 1000 * LITRES_PER_US_GALLON)],
  s: [times('minutes', 60), times('milliseconds', 0.001), times('hours', 3600)],
  cm: [times('metres', 100), times('millimetres', 0.1), times('inches', 2.54)],
  '1/min': [times('revolutions per second', 60), times('thousands per minute', 1000)],
  N: [
    times('kilograms-force', NEWTONS_PER_KGF),
    times('pounds-force', NEWTONS_PER_LBF),
    times('decanewtons', 10),
    times('kilonewtons', 1000),
  ],
  kW: [times('watts', 0.001), times('horsepower', KW_PER_HORSEPOWER)],
  Wh: [times('kilowatt-hours', 1000), times('joules', 1 / 3600)],
  W: [times('kilowatts', 1000)],
  V: [times('millivolts', 0.001)],
  'L/h': [times('US gallons per hour', LITRES_PER_US_GALLON), times('mL/h', 0.001)],
}

/**
 * Says which unit a value looks like, when in that unit it would be an ordinary one.
 *
 * @param value a value outside its range [unit of the limit]
 * @param limit the limit it broke
 * @returns a sentence, or an empty string
 * @source common practice: ratios of units that people mix up
 * @example unitMistake(59, FIELD_LIMITS.temperatureC) // 'It looks like degrees Fahrenheit: that would be 15 °C.'
 */
export function unitMistake(value: number, limit: Limit): string {
  for (const { name, convert } of OTHER_UNITS[limit.unit] ?? []) {
    const converted = convert(value)
    if (isInside(converted, limit.soft)) {
      return `It looks like ${name}: that would be ${withUnit(converted, limit.unit)}.`
    }
  }
  return ''
}

/**
 * A number with its unit, to four digits.
 *
 * @source common practice
 */
export function withUnit(value: number, unit: string): string {
  const digits = String(Number(value.toPrecision(4)))
  return unit === '' ? digits : `${digits} ${unit}`
}
