import { z } from 'zod'

import { measured } from './measured.ts'

const rpm = z.number().optional().describe('Engine speed during the run [1/min]')
const durationS = z.number().describe('Time from start to end of the run [s]')

const climb = {
  kind: z.literal('climb'),
  heightGainM: z.number().describe('Height gained at full throttle, as the source showed it [m]'),
  durationS,
  heightSource: z
    .enum(['barometric', 'barometricTemperatureCompensated', 'gnss', 'unknown'])
    .describe('How the height gain was read'),
  startHeightAboveSiteM: z.number().describe('Height above the field at the start [m]'),
  rpm,
}

const fuelBurn = {
  kind: z.literal('fuelBurn'),
  volumeMl: z.number().describe('Fuel burned in level flight, at the temperature of the fuel [mL]'),
  durationS,
  heightAboveSiteM: z.number().describe('Mean height above the field [m]'),
  heightChangeM: z.number().describe('Height at the end less height at the start [m]'),
  rpm,
  fuelTemperatureC: z.number().optional().describe('Temperature of the fuel when measured [°C]'),
}

const climbMeasures = ['heightGainM', 'durationS', 'startHeightAboveSiteM', 'rpm'] as const
const fuelBurnMeasures = [
  'volumeMl',
  'durationS',
  'heightAboveSiteM',
  'heightChangeM',
  'rpm',
  'fuelTemperatureC',
] as const

/** Kinds of run taken today. To add one: its fields and measures above, one line here and below. */
export const RUN_KINDS = [climb.kind.value, fuelBurn.kind.value] as const

export const RunKind = z.enum(RUN_KINDS)

/** One measured run of a submission. */
export const NewRun = z.discriminatedUnion(
  'kind',
  [measured(climb, climbMeasures), measured(fuelBurn, fuelBurnMeasures)],
  {
    error: (issue) =>
      issue.code === 'invalid_union'
        ? `Kinds of run taken today: ${RUN_KINDS.join(', ')}. Other kinds are not taken yet`
        : undefined,
  },
)

export type NewRun = z.infer<typeof NewRun>

/** The runs as they were given, each with further fields beside its own: for the answers. */
export function reportedRun<S extends z.core.$ZodLooseShape>(result: S) {
  return z.discriminatedUnion('kind', [
    z.object({ ...measured(climb, climbMeasures).shape, ...result }),
    z.object({ ...measured(fuelBurn, fuelBurnMeasures).shape, ...result }),
  ])
}
