import { z } from 'zod'

import { conditionsQuery, FitId, ONE_MASS, oneMass } from '../../contract/conditions.ts'
import { evidenceQuery } from '../../contract/evidence.ts'
import { queryQuantity, type Unit } from '../../contract/quantities.ts'
import { BASES } from '../../core/prediction/question.ts'

/** A standard uncertainty of the caller's own. */
function stated(unit: Unit, max: number, describes: string) {
  return queryQuantity(unit, 0, max)
    .optional()
    .describe(`Standard uncertainty (k = 1) of ${describes}`)
}

const airQuery = {
  elevationM: conditionsQuery.elevationM.describe('Elevation above mean sea level [m]'),
  qnhHPa: queryQuantity('hPa', 870, 1085)
    .optional()
    .describe('Altimeter setting QNH [hPa]; default: the standard atmosphere, ±10 hPa'),
  relativeHumidityPct: queryQuantity('%', 0, 100)
    .optional()
    .describe('Relative humidity [%]; default: 50, anything from 0 to 100 being possible'),
}

const wingQuery = {
  wingId: conditionsQuery.wingId.describe(
    'A wing of the catalogue; its glide ratio less 15 % for cage and pilot',
  ),
  flatAreaM2: queryQuantity('m²', 8, 50).optional().describe('Flat area of your own wing [m²]'),
  glideRatio: queryQuantity('1', 4, 12)
    .optional()
    .describe('Glide ratio of the system: wing, pilot and running frame'),
  glideSource: z
    .enum(['measured', 'catalogue', 'estimated'])
    .optional()
    .describe('Where glideRatio comes from; default: estimated. Of a catalogue’s, 85 % are taken'),
  trimSpeedMps: queryQuantity('m/s', 5, 25)
    .optional()
    .describe('Level airspeed at trim in standard air at sea level [m/s], at trimAtAllUpMassKg'),
  trimAtAllUpMassKg: queryQuantity('kg', 60, 500)
    .optional()
    .describe('All-up mass that trimSpeedMps belongs to [kg]; default: the mass of the question'),
}

const tankQuery = {
  tankL: queryQuantity('L', 0.5, 60)
    .optional()
    .describe('Fuel on board at the start, part of the all-up mass [L]'),
  reserveL: queryQuantity('L', 0, 60).optional().describe('Fuel not to be flown on [L]'),
  reserveMin: queryQuantity('min', 0, 600)
    .optional()
    .describe('Flying time to be left over, in place of reserveL [min]'),
}

const uncertaintyQuery = {
  allUpMassUncertaintyKg: stated(
    'kg',
    30,
    'the mass [kg]; default: 2, or that of the class for a massClass',
  ),
  glideUncertainty: stated(
    '1',
    4,
    'the glide ratio of the system; default: 7 % measured, 12 % catalogue, 15 % estimated, 20 % where there is none',
  ),
  trimSpeedUncertaintyMps: stated(
    'm/s',
    5,
    'the trim speed [m/s]; default: 4 %, 10 % where there is none',
  ),
  temperatureUncertaintyK: stated('K', 10, 'the air temperature [K]; default: 1.5'),
  qnhUncertaintyHPa: stated('hPa', 30, 'QNH [hPa]; default: 2, or 10 without a QNH'),
  relativeHumidityUncertaintyPct: stated(
    '%',
    50,
    'the humidity [%]; default: 15, or 29 without a humidity',
  ),
  tankUncertaintyL: stated('L', 5, 'the fuel on board [L]; default: 2 %'),
}

const fields = z.object({
  allUpMassKg: conditionsQuery.allUpMassKg.describe(
    'All-up mass at the start, with all fuel [kg]; default 120',
  ),
  massClass: conditionsQuery.massClass,
  temperatureC: conditionsQuery.temperatureC,
  ...airQuery,
  ...wingQuery,
  ...tankQuery,
  ...uncertaintyQuery,
  ...evidenceQuery,
  fitId: z
    .string()
    .transform((list) => list.split(',').map((id) => id.trim()))
    .pipe(z.array(FitId).max(BASES.length, `name at most ${BASES.length} fits`))
    .optional()
    .describe(
      'Earlier fits, one at most for each of climb, fuel, electric power and static thrust, separated by commas',
    ),
})

type Fields = z.infer<typeof fields>

const OWN_WING = [
  'flatAreaM2',
  'glideRatio',
  'glideSource',
  'trimSpeedMps',
  'trimAtAllUpMassKg',
] as const

/** True where the query describes a wing of the caller's own. */
export function hasOwnWing(query: Fields): boolean {
  return OWN_WING.some((name) => query[name] !== undefined)
}

type Rule = readonly [path: keyof Fields, error: string, holds: (query: Fields) => boolean]

const isGiven = (value: unknown) => value !== undefined

const RULES: readonly Rule[] = [
  [
    'wingId',
    'give wingId or a wing of your own, not both',
    (q) => !isGiven(q.wingId) || !hasOwnWing(q),
  ],
  [
    'flatAreaM2',
    'a wing of your own needs its flat area',
    (q) => !hasOwnWing(q) || isGiven(q.flatAreaM2),
  ],
  [
    'glideSource',
    'belongs to a glideRatio',
    (q) => !isGiven(q.glideSource) || isGiven(q.glideRatio),
  ],
  [
    'trimAtAllUpMassKg',
    'belongs to a trimSpeedMps',
    (q) => !isGiven(q.trimAtAllUpMassKg) || isGiven(q.trimSpeedMps),
  ],
  [
    'reserveMin',
    'give reserveL or reserveMin, not both',
    (q) => !isGiven(q.reserveL) || !isGiven(q.reserveMin),
  ],
  [
    'tankL',
    'a reserve needs a tank',
    (q) => isGiven(q.tankL) || !(isGiven(q.reserveL) || isGiven(q.reserveMin)),
  ],
  [
    'reserveL',
    'must be less than tankL',
    (q) => !isGiven(q.reserveL) || q.reserveL! < (q.tankL ?? Number.POSITIVE_INFINITY),
  ],
  [
    'tankUncertaintyL',
    'belongs to a tankL',
    (q) => !isGiven(q.tankUncertaintyL) || isGiven(q.tankL),
  ],
]

export const PredictionQuery = RULES.reduce(
  (schema, [path, error, holds]) => schema.refine(holds, { path: [path], error }),
  fields.refine(oneMass, ONE_MASS),
)

export type PredictionQuery = Fields
