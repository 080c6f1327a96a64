import { z } from 'zod'

import { freeText } from '../../contract/free-text.ts'
import { Id } from '../../contract/ids.ts'
import { measured } from './measured.ts'
import { NewRun } from './run-kinds.ts'

const DAY_MS = 86_400_000
/** Nobody flew a powered paraglider before; also keeps the date inside what a database takes. */
const FIRST_DAY = '1980-01-01'

const site = measured(
  {
    name: freeText(200).describe('Name of the field; shown to nobody but its owner'),
    elevationM: z.number().describe('Height of the field above mean sea level [m]'),
  },
  ['elevationM'],
)

const conditions = measured(
  {
    temperatureC: z.number().describe('Air temperature at the field [°C]'),
    qnhHPa: z.number().optional().describe('Altimeter setting QNH [hPa]; not QFE, not QFF'),
    stationPressureHPa: z
      .number()
      .optional()
      .describe('Pressure at the field itself [hPa], in place of qnhHPa'),
    relativeHumidityPct: z.number().optional().describe('Relative humidity at the field [%]'),
    windMps: z.number().optional().describe('Wind at the field [m/s]'),
    airMotion: z
      .enum(['calm', 'light', 'active', 'thermic'])
      .describe("The pilot's word for the vertical motion of the air"),
  },
  ['temperatureC', 'qnhHPa', 'stationPressureHPa', 'relativeHumidityPct', 'windMps'],
).refine((c) => c.qnhHPa === undefined || c.stationPressureHPa === undefined, {
  path: ['stationPressureHPa'],
  message: 'Give qnhHPa or stationPressureHPa, not both',
})

const pilot = measured({ massKg: z.number().describe('Pilot with clothing [kg]') }, ['massKg'])

/** A wing as the pilot describes it. */
export interface DescribedWing {
  readonly flatAreaM2: number
  readonly glideRatio?: number | undefined
  readonly glideSource?: 'measured' | 'catalogue' | 'estimated' | undefined
  readonly trimSpeedMps?: number | undefined
  readonly trimAtAllUpMassKg?: number | undefined
  readonly uncertainty?: Readonly<Record<string, number>> | undefined
}

/** One shape instead of a union of two, so that a fault names its field and not the whole wing. */
const wing = measured(
  {
    id: Id.optional().describe('A wing of the catalogue; then nothing else is given'),
    flatAreaM2: z.number().optional().describe('Flat area [m²]; required without id'),
    glideRatio: z
      .number()
      .optional()
      .describe(
        'Glide ratio; a catalogue figure is that of the bare wing and is reduced for pilot and cage',
      ),
    glideSource: z
      .enum(['measured', 'catalogue', 'estimated'])
      .optional()
      .describe('Where the glide ratio comes from'),
    trimSpeedMps: z
      .number()
      .optional()
      .describe('Airspeed in level trimmed flight, in standard air at sea level [m/s]'),
    trimAtAllUpMassKg: z
      .number()
      .optional()
      .describe('All-up mass to which trimSpeedMps refers [kg]'),
  },
  ['flatAreaM2', 'glideRatio', 'trimSpeedMps', 'trimAtAllUpMassKg'],
)
  .superRefine((given, context) => {
    const refuse = (field: string, message: string) =>
      context.addIssue({ code: 'custom', path: [field], message })
    const fields = Object.keys(given)
    if (given.id === undefined) {
      if (given.flatAreaM2 === undefined)
        refuse('flatAreaM2', 'Give flatAreaM2, or the id of a wing')
      return
    }
    for (const field of fields) if (field !== 'id') refuse(field, 'Not to be given beside id')
  })
  .describe('A wing of the catalogue by its id alone, or one described here')

export type Wing = { readonly id: string } | DescribedWing

const entryFields = {
  allUpMassKg: z
    .number()
    .describe('Pilot, clothing, wing, frame, engine and fuel at the start of the run [kg]'),
  massSource: z
    .enum(['weighed', 'estimated'])
    .optional()
    .describe('How allUpMassKg is known; absent: treated as estimated'),
  engineHours: z.number().min(0).optional().describe('Running time of the engine so far [h]'),
  runs: z.array(NewRun).min(1).max(60),
}

const entry = measured(
  { setupId: Id.describe('The set-up that was flown, from GET /v1/setups'), ...entryFields },
  ['allUpMassKg'],
)

const equipment = z.strictObject({
  drive: z.enum(['twoStroke', 'fourStroke', 'electric']),
  propellerDiameterCm: z.number().describe('Diameter of the propeller [cm]'),
  reductionRatio: z
    .number()
    .optional()
    .describe('Engine speed over propeller speed; for what follows from rpm'),
  ratedPowerKw: z
    .number()
    .optional()
    .describe('Rated shaft power [kW]; for the figure of merit of a static pull'),
})

const calculatedEntry = measured(
  {
    setupId: Id.optional().describe('A set-up of the catalogue'),
    equipment: equipment.optional().describe('In place of setupId: what a set-up would say'),
    ...entryFields,
  },
  ['allUpMassKg'],
).refine((given) => (given.setupId === undefined) !== (given.equipment === undefined), {
  path: ['setupId'],
  message: 'Give setupId or equipment, one of them',
})

const flownOn = z.iso
  .date()
  .refine((day) => day >= FIRST_DAY, `Must not lie before ${FIRST_DAY}`)
  .refine(
    // East of Greenwich the next day has begun already.
    (day) => day <= new Date(Date.now() + DAY_MS).toISOString().slice(0, 10),
    'Must not lie in the future',
  )
  .describe('Local date of the flights')

function bodyOf<E extends z.ZodType<{ readonly setupId?: string | undefined }>>(entrySchema: E) {
  return z.strictObject({
    flownOn,
    site,
    conditions,
    pilot,
    wing: wing as unknown as z.ZodType<Wing>,
    interest: z
      .enum(['none', 'dealer', 'maker', 'sponsored'])
      .describe('Interest in the result, declared by who submits'),
    note: freeText(500).optional().describe('Shown to nobody but its owner'),
    entries: z.array(entrySchema).min(1).max(20).superRefine(refuseRepeatedSetups),
  })
}

/** Two entries of one set-up would be one entry with more runs. */
function refuseRepeatedSetups(
  entries: readonly { readonly setupId?: string | undefined }[],
  context: z.RefinementCtx,
): void {
  const first = new Map<string, number>()
  entries.forEach(({ setupId }, index) => {
    if (setupId === undefined) return
    const before = first.get(setupId.toLowerCase())
    if (before === undefined) first.set(setupId.toLowerCase(), index)
    else {
      const message = `Same set-up as entry ${before}; put its runs there`
      context.addIssue({ code: 'custom', path: [index, 'setupId'], message })
    }
  })
}

/** A session of flying, as it was measured: one pilot, place, wing and air; one entry per set-up. */
export const NewSubmission = bodyOf(entry).meta({ id: 'NewSubmission' })

export type NewSubmission = z.infer<typeof NewSubmission>

/** As a submission, but an entry may describe its equipment instead of naming a set-up. */
export const NewNormalization = bodyOf(calculatedEntry).meta({ id: 'NewNormalization' })

export type NewNormalization = z.infer<typeof NewNormalization>
