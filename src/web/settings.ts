import { recall, remember } from './store/device.ts'
import { shared, useShared } from './store/shared.ts'
import { type Dimension, type Unit, unitOf, writeNumber } from './units.ts'

export type Theme = 'system' | 'light' | 'dark'

/** How this device likes things shown. */
export interface Settings {
  readonly theme: Theme
  readonly units: Readonly<Partial<Record<Dimension, string>>>
}

const US: Settings['units'] = {
  mass: 'lb',
  height: 'ft',
  climbRate: 'ft/min',
  speed: 'mph',
  temperature: '°F',
  pressure: 'inHg',
  force: 'lbf',
  fuelVolume: 'fl oz',
  tank: 'gal',
  fuelFlow: 'gal/h',
  area: 'ft²',
  distance: 'mi',
}

/** Whole sets of units for one press. */
export const UNIT_SETS = { Metric: {}, US } as const

const STORED = 'settings'

const settings = shared<Settings>({
  theme: 'system',
  units: {},
  ...recall<Partial<Settings>>(STORED),
})

export function changeSettings(change: Partial<Settings>): void {
  const next = { ...settings.get(), ...change }
  settings.set(next)
  remember(STORED, next)
  const { documentElement } = document
  if (next.theme === 'system') delete documentElement.dataset.theme
  else documentElement.dataset.theme = next.theme
}

export function useSettings(): Settings {
  return useShared(settings)
}

/** Figures in the reader's units. */
export interface Reading {
  unit(dimension: Dimension): Unit
  /** The number alone. */
  number(dimension: Dimension, stored: number): string
  /** Number and unit. */
  quantity(dimension: Dimension, stored: number): string
}

export function useReading(): Reading {
  const { units } = useSettings()
  const unit = (dimension: Dimension) => unitOf(dimension, units[dimension])
  const number = (dimension: Dimension, stored: number) => {
    const { toReader, decimals } = unit(dimension)
    return writeNumber(toReader(stored), decimals)
  }
  const quantity = (dimension: Dimension, stored: number) =>
    `${number(dimension, stored).replace(/^(\D*\d+)\.0$/, '$1')} ${unit(dimension).sign}`
  return { unit, number, quantity }
}
