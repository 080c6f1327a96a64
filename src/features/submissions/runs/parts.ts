import { z } from 'zod'

/** Fields that several kinds of run have. */
export const rpm = z.number().optional().describe('Engine speed during the run [1/min]')

export const durationS = z.number().describe('Time from start to end of the run [s]')

const volts = (when: string) => z.number().describe(`Voltage of the battery ${when} [V]`)

export const battery = { batteryStartV: volts('before'), batteryEndV: volts('after') }

export const batteryIfElectric = {
  batteryStartV: volts('before, of electric drives only').optional(),
  batteryEndV: volts('after, of electric drives only').optional(),
}

export const level = {
  heightAboveSiteM: z.number().describe('Mean height above the field [m]'),
  heightChangeM: z.number().describe('Height at the end less height at the start [m]'),
}
