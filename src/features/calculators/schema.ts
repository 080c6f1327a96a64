import { z } from 'zod'

import { queryQuantity } from '../../contract/quantities.ts'

/** QNH that occurs on Earth [hPa], with room. */
export const QNH_HPA = { min: 870, max: 1085 }

export const AtmosphereQuery = z
  .object({
    elevationM: queryQuantity('m', -430, 5500).describe(
      'Height of the place above mean sea level [m]',
    ),
    temperatureC: queryQuantity('°C', -40, 55).describe('Air temperature at the place [°C]'),
    qnhHPa: queryQuantity('hPa', QNH_HPA.min, QNH_HPA.max)
      .optional()
      .describe('Altimeter setting QNH [hPa]; not QFE, not QFF'),
    stationPressureHPa: queryQuantity('hPa', 400, 1085)
      .optional()
      .describe('Pressure at the place itself [hPa], in place of qnhHPa'),
    relativeHumidityPct: queryQuantity('%', 0, 100).optional().describe('Relative humidity [%]'),
  })
  .refine((query) => query.qnhHPa === undefined || query.stationPressureHPa === undefined, {
    path: ['stationPressureHPa'],
    message: 'Give qnhHPa or stationPressureHPa, not both',
  })

export type AtmosphereQuery = z.infer<typeof AtmosphereQuery>

export const Atmosphere = z
  .strictObject({
    stationPressureHPa: z.number().describe('Pressure at the place itself [hPa]'),
    airDensityKgPerM3: z.number().describe('Density of the moist air [kg/m³]'),
    densityRatio: z.number().describe('Density over that of the standard atmosphere at sea level'),
    pressureAltitudeM: z
      .number()
      .describe('Where the standard atmosphere has this pressure [m, geopotential]'),
    densityAltitudeM: z
      .number()
      .describe('Where the standard atmosphere has this density [m, geopotential]'),
    speedOfSoundMps: z.number().describe('Speed of sound, of dry air at this temperature [m/s]'),
    fullThrottlePowerRatio: z
      .number()
      .describe(
        'Full-throttle power of a naturally aspirated piston engine over that in the standard atmosphere at sea level; about 0.15 of its distance from 1 is uncertain. An electric drive limited in power has 1, one limited in speed the density ratio',
      ),
    assumed: z.array(z.string()).readonly().describe('What was not given and had to be assumed'),
  })
  .meta({ id: 'Atmosphere' })
