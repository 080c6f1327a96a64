import { z } from 'zod'

import {
  celsiusFromFahrenheit,
  KELVIN_OFFSET,
  KG_PER_LB,
  LITRES_PER_US_GALLON,
  M2_PER_SQUARE_FOOT,
  METRES_PER_FOOT,
  MPS_PER_KMH,
  MPS_PER_KNOT,
  NEWTONS_PER_KGF,
  PA_PER_HPA,
  PA_PER_INHG,
  PA_PER_MMHG,
} from '../core/units.ts'

export type Unit =
  | '1'
  | '%'
  | '1/min'
  | '°/s'
  | 'cm'
  | 'cm³'
  | 'currency/L'
  | 'dB(A)'
  | 'hPa'
  | 'K'
  | 'kg'
  | 'kg·m²'
  | 'kW'
  | 'L'
  | 'm'
  | 'm/s'
  | 'm²'
  | 'mm'
  | 'N/mm'
  | 'N'
  | 'min'
  | '°C'

type Conversion = readonly [unit: string, convert: (value: number) => number]

const times = (factor: number) => (value: number) => value * factor

/** What people write by mistake for a unit, likeliest first. */
const MISTAKEN_FOR: Readonly<Partial<Record<Unit, readonly Conversion[]>>> = {
  cm: [
    ['m', times(100)],
    ['mm', times(0.1)],
    ['in', times(2.54)],
  ],
  'cm³': [
    ['L', times(1000)],
    ['m³', times(1e6)],
  ],
  hPa: [
    ['Pa', times(1 / PA_PER_HPA)],
    ['inHg', times(PA_PER_INHG / PA_PER_HPA)],
    ['mmHg', times(PA_PER_MMHG / PA_PER_HPA)],
    ['kPa', times(10)],
  ],
  kg: [
    ['lb', times(KG_PER_LB)],
    ['g', times(0.001)],
  ],
  N: [
    ['kgf', times(NEWTONS_PER_KGF)],
    ['lbf', times(KG_PER_LB * NEWTONS_PER_KGF)],
    ['kN', times(1000)],
  ],
  'N/mm': [['N/m', times(0.001)]],
  min: [
    ['h', times(60)],
    ['s', times(1 / 60)],
  ],
  kW: [
    ['W', times(0.001)],
    ['hp', times(0.74569987)],
  ],
  L: [
    ['mL', times(0.001)],
    ['US gallons', times(LITRES_PER_US_GALLON)],
  ],
  m: [
    ['ft', times(METRES_PER_FOOT)],
    ['km', times(1000)],
  ],
  'm/s': [
    ['km/h', times(MPS_PER_KMH)],
    ['kn', times(MPS_PER_KNOT)],
  ],
  'm²': [
    ['ft²', times(M2_PER_SQUARE_FOOT)],
    ['cm²', times(1e-4)],
  ],
  mm: [
    ['cm', times(10)],
    ['m', times(1000)],
    ['in', times(25.4)],
  ],
  '°C': [
    ['°F', celsiusFromFahrenheit],
    ['K', (value) => value - KELVIN_OFFSET],
  ],
  '%': [['a fraction of one', times(100)]],
}

/** A number with its unit and the range in which it is accepted; a refusal names the likely unit mistake. */
export function quantity(unit: Unit, min: number, max: number) {
  const error = (issue: { input?: unknown }) => refusal(issue.input, unit, min, max)
  return z.number({ error }).min(min, { error }).max(max, { error })
}

/** As {@link quantity}, out of the text of a query; an empty text is no zero. */
export function queryQuantity(unit: Unit, min: number, max: number) {
  return z
    .string({ error: 'Give one number' })
    .regex(/^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/i, { error: 'Must be a number', abort: true })
    .transform(Number)
    .pipe(quantity(unit, min, max))
    .meta({ type: 'number', minimum: min, maximum: max, pattern: undefined })
}

function refusal(input: unknown, unit: Unit, min: number, max: number): string {
  const unitText = unit === '1' ? '' : ` ${unit}`
  const rule = `Must be a number from ${min} to ${max}${unitText}`
  if (typeof input !== 'number' || Number.isNaN(input)) return rule
  for (const [mistaken, convert] of MISTAKEN_FOR[unit] ?? []) {
    const converted = convert(input)
    if (converted >= min && converted <= max) {
      const shown = Number(converted.toPrecision(4))
      return `${rule}; ${input} looks like a unit mistake: read as ${mistaken} it is ${shown}${unitText}`
    }
  }
  return rule
}
