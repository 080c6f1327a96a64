import type { NumberSpec } from './spec.ts'

export const RPM: NumberSpec = {
  at: 'rpm',
  label: 'Engine speed',
  sign: '1/min',
  isOptional: true,
}

const volts = (at: string, when: string): NumberSpec => ({
  at,
  label: `Battery voltage ${when}`,
  sign: 'V',
  isOptional: true,
  isElectric: true,
})

/** Of electric drives: how far the battery was down. */
export const BATTERY: readonly NumberSpec[] = [
  volts('batteryStartV', 'at the start'),
  volts('batteryEndV', 'at the end'),
]
