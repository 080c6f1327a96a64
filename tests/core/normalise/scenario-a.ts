import type { RunInput } from '../../../src/core/normalise/types.ts'

/** Scenario A of METHOD.md, section d, with the uncertainties of section j. */
export const SCENARIO_A = {
  session: {
    site: { elevationM: 600 },
    conditions: {
      temperatureC: 25,
      qnhHPa: 1018,
      relativeHumidityPct: 50,
      airMotion: 'light',
      uncertainty: { temperatureC: 1.5, qnhHPa: 1, relativeHumidityPct: 15 },
    },
    pilot: { massKg: 95 },
    wing: {
      flatAreaM2: 26,
      glideRatio: 6.8,
      glideSource: 'measured',
      trimSpeedMps: 10.8,
      trimAtAllUpMassKg: 4.8 * 26,
      uncertainty: { glideRatio: 0.5, trimSpeedMps: 0.4 },
    },
  },
  entry: { allUpMassKg: 135, massSource: 'weighed' },
  equipment: { drive: 'twoStroke', propellerDiameterCm: 125 },
  run: {
    kind: 'climb',
    heightGainM: 100,
    durationS: 55,
    heightSource: 'barometric',
    startHeightAboveSiteM: 50,
    uncertainty: { heightGainM: 0.7, durationS: 0.1 },
  },
} as const satisfies RunInput
