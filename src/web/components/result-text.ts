import type { Normalized } from '../../core/normalise/types.ts'
import type { Reading } from '../settings.ts'
import { type Dimension, writeNumber } from '../units.ts'

/** Standard uncertainties on each side that hold 95 % of a normal distribution. */
export const COVERAGE = 1.96

interface Words {
  readonly label: string
  readonly dimension?: Dimension
  readonly sign?: string
}

export const RESULT_WORDS: Readonly<Record<Normalized['metric'], Words>> = {
  climbRate: { label: 'Climb rate at 120 kg, sea level, 15 °C', dimension: 'climbRate' },
  fuelFlow: {
    label: 'Fuel flow in level flight at 120 kg, sea level, 15 °C',
    dimension: 'fuelFlow',
  },
  staticThrust: { label: 'Static thrust at sea level, 15 °C', dimension: 'force' },
  soundLevel: { label: 'Sound level', sign: 'dB(A)' },
  electricPower: {
    label: 'Electric power in level flight at 120 kg, sea level, 15 °C',
    dimension: 'electricPower',
  },
  sinkRate: { label: 'Sink rate at 120 kg, sea level, 15 °C', dimension: 'climbRate' },
  levelSpeed: { label: 'Airspeed at trim, 120 kg, sea level', dimension: 'speed' },
  tipClearance: { label: 'Propeller clearance', sign: 'mm' },
}

/** How a result is written in the reader's units: the number, and the width of an interval. */
export function inReader({ metric }: Pick<Normalized, 'metric'>, reading: Reading) {
  const { dimension, sign = '' } = RESULT_WORDS[metric]
  if (dimension === undefined) {
    const write = (value: number) => writeNumber(value, 1)
    return { sign, toReader: (value: number) => value, write, writeSpan: write }
  }
  const unit = reading.unit(dimension)
  const write = (value: number) => writeNumber(value, unit.decimals)
  const writeSpan = (span: number) => write(unit.toReader(span) - unit.toReader(0))
  return { sign: unit.sign, toReader: unit.toReader, write, writeSpan }
}

type Result = Pick<Normalized, 'metric' | 'value' | 'standardUncertainty'>

/** 2.61 ± 0.79 m/s, the interval holding 95 %. */
export function resultText(result: Result, reading: Reading): string {
  const show = inReader(result, reading)
  const value = show.write(show.toReader(result.value))
  return `${value} ± ${show.writeSpan(COVERAGE * result.standardUncertainty)} ${show.sign}`
}
