import type { MassClass } from '../core/comparison/mass-classes.ts'
import { METRIC_FACTS, type Metric } from '../core/comparison/metric.ts'
import type { Reading } from './settings.ts'
import { type Dimension, writeNumber } from './units.ts'

export type { MassClass, Metric }

interface MetricWords {
  /** As a choice. */
  readonly label: string
  readonly noun: string
  /** "X … at these conditions". */
  readonly best: string
  readonly dimension: Dimension | null
}

export const METRIC_WORDS: Readonly<Record<Metric, MetricWords>> = {
  climbRate: {
    label: 'Climb rate',
    noun: 'climb rate',
    best: 'climbs fastest',
    dimension: 'climbRate',
  },
  climbThrust: {
    label: 'Thrust in the climb',
    noun: 'thrust in the climb',
    best: 'pulls hardest in the climb',
    dimension: 'force',
  },
  fuelFlow: {
    label: 'Fuel in level flight',
    noun: 'fuel flow in level flight',
    best: 'burns least in level flight',
    dimension: 'fuelFlow',
  },
  electricPower: {
    label: 'Battery power in level flight',
    noun: 'electric power in level flight',
    best: 'draws least in level flight',
    dimension: 'electricPower',
  },
  staticThrust: {
    label: 'Static thrust',
    noun: 'static thrust',
    best: 'pulls hardest standing still',
    dimension: 'force',
  },
  soundLevel: {
    label: 'Sound at full power',
    noun: 'sound level at full power',
    best: 'is quietest at full power',
    dimension: null,
  },
}

export const METRIC_CHOICES = (Object.keys(METRIC_WORDS) as Metric[]).map(
  (metric) => [metric, METRIC_WORDS[metric].label] as const,
)

export const MASS_CLASS_CHOICES = [
  ['under100', 'under 100'],
  ['100to120', '100–120'],
  ['120to140', '120–140'],
  ['140to170', '140–170'],
  ['tandem', 'tandem'],
] as const satisfies readonly (readonly [MassClass, string])[]

/** How the values of a metric are written in the reader's unit. */
export interface MetricReading {
  readonly sign: string
  toReader(value: number): number
  /** A number that is in the reader's unit already. */
  write(value: number): string
  /** A stored value with its unit. */
  quantity(value: number): string
}

export function readingOf(metric: Metric, reading: Reading): MetricReading {
  const { dimension } = METRIC_WORDS[metric]
  if (dimension === null) {
    const write = (value: number) => writeNumber(value, 1)
    return { sign: 'dB(A)', toReader: (v) => v, write, quantity: (v) => `${write(v)} dB(A)` }
  }
  const { sign, toReader, decimals } = reading.unit(dimension)
  return {
    sign,
    toReader,
    write: (value) => writeNumber(value, decimals),
    quantity: (value) => reading.quantity(dimension, value),
  }
}

/** A difference with its sign, in per cent or decibels. */
export function writeDifference(value: number): string {
  const text = writeNumber(value, Math.abs(value) < 10 ? 1 : 0)
  return value > 0 ? `+${text}` : text
}

export function differenceUnit(metric: Metric): '%' | 'dB' {
  return METRIC_FACTS[metric].scale === 'level' ? 'dB' : '%'
}
