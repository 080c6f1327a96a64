import { z } from 'zod'

export const warning = z.object({
  pointer: z.string().describe('JSON Pointer (RFC 6901) into the submission body'),
  code: z.string(),
  detail: z.string(),
})

const budgetLine = z.object({
  source: z.string().describe('What varies'),
  standardUncertainty: z.number().describe('Its part, in the unit of the value, k = 1'),
  share: z.number().describe('Fraction of the variance of the value; the shares sum to 1'),
  sharedWithinSession: z
    .boolean()
    .describe('True where all runs of the session carry the same error, so that it cancels'),
})

const figure = (description: string) => z.number().optional().describe(description)

const normalized = z
  .object({
    metric: z.enum([
      'climbRate',
      'fuelFlow',
      'staticThrust',
      'soundLevel',
      'electricPower',
      'sinkRate',
      'levelSpeed',
      'tipClearance',
    ]),
    value: z.number().describe('The result at the reference state, in `unit`'),
    unit: z.enum(['m/s', 'L/h', 'N', 'dB', 'W', 'mm']),
    standardUncertainty: z.number().describe('Of `value`, in its unit, k = 1'),
    budget: z.array(budgetLine),
    inducedPowerW: figure('Climb: useful induced power at full throttle, standard sea level [W]'),
    thrustN: figure(
      'Climb: thrust in the climb at the reference state. Static pull: static thrust at full throttle, standard sea level [N]',
    ),
    climbRateMps: figure(
      'Climb: climb rate at the reference state [m/s]; negative where it would sink',
    ),
    fuelFlowLPerH: figure(
      'Fuel burn: flow in level flight at the reference state, volume at 15 °C [L/h]',
    ),
    electricPowerW: figure('Energy use: electric power in level flight at the reference state [W]'),
    position: z
      .enum(['pilotEar', 'distance'])
      .optional()
      .describe('Sound level: where it holds; the two are never converted into one another'),
    distanceM: figure(
      'Sound level at a distance: where it holds [m]; 20, or where it was measured if that is too near for the distance rule',
    ),
    power: z.enum(['full', 'level']).optional().describe('Sound level: what the engine gave'),
    glideRatio: figure('Sink: glide ratio of wing, pilot and frame as flown'),
    glideRatioStandardUncertainty: figure('Sink: of `glideRatio`, k = 1'),
    trueAirspeedMps: figure('Level speed: as flown [m/s]; to its owner only'),
    windMps: figure('Level speed: wind at the height of the run [m/s]; to its owner only'),
    windFromDeg: figure(
      'Level speed: where the wind comes from, clockwise from north [°]; to its owner only',
    ),
    atTrim: z
      .boolean()
      .optional()
      .describe('Level speed: whether it stands for the trim speed of the session'),
    underLoad: z
      .boolean()
      .optional()
      .describe('Tip clearance: whether `value` was measured under load; else at rest'),
    contactSeen: z.boolean().optional().describe('Tip clearance: whether the propeller touched'),
    movementMm: figure('Tip clearance: movement towards the cage under load [mm]'),
    advisedLoadedClearanceMm: figure(
      'Tip clearance: clearance under load advised for this movement: 10 mm and half of it [mm]',
    ),
  })
  .meta({ id: 'Normalized', description: 'A run brought to the reference state' })

const derived = z
  .object({
    propellerRpm: figure('Propeller speed [1/min]'),
    tipSpeedMps: figure('Speed of the tips in the plane of the propeller [m/s]'),
    helicalTipMach: figure('Mach number of the tips on their helix'),
    thrustCoefficient: figure('T/(ρ·n²·D⁴) of the thrust in this run'),
    figureOfMerit: figure(
      'Static pull: ideal power of this thrust over the rated power in this air',
    ),
  })
  .optional()
  .meta({
    id: 'Derived',
    description:
      'What follows from the engine speed, where reduction ratio and propeller are known',
  })

/** What came out for one run, beside what went in. */
export const runResult = { normalized, derived, warnings: z.array(warning) }

/** The same without the words of its warnings, which may hold the values they speak of. */
export const publicRunResult = {
  ...runResult,
  warnings: z.array(warning.omit({ detail: true })).describe('Without the values they speak of'),
}
