import { z } from 'zod'

import { QUANTITIES } from '../../../core/comparison/metric.ts'
import {
  AIR_MOTIONS,
  boundsLabel,
  type ClassBound,
  ELEVATION_BOUNDS,
  INTERESTS,
  interestLabel,
  labelsOf,
  MASS_BOUNDS,
  WING_AREA_BOUNDS,
  wordsLabel,
} from './classes.ts'
import { column } from './column.ts'

export const Key = z.string().regex(/^[a-z0-9-]+$/)

export const setupId = column(z.uuid(), {
  title: 'Setup',
  description: 'Identifier of the setup in the catalogue; see the table setups.',
})

export const metric = z.enum(QUANTITIES)

export const METRIC_TOLD = {
  title: 'Metric of the model',
  description:
    'What the model estimates, as a natural logarithm: inducedPower (watts; behind climbRate and climbThrust), fuelFlow (L/h), electricPower (watts out of the battery), staticThrust (N), soundAtEar and soundAtDistance (sound pressure over 20 µPa), and what was added later.',
}

const rangesOf = (bounds: readonly ClassBound[]) =>
  z.enum(labelsOf(bounds.length, (low, high) => boundsLabel(bounds, low, high)))

const MAY_BE_RANGE = 'A class, or a range of classes that holds it; empty where suppressed.'

const month = (title: string, description: string) =>
  column(
    z
      .string()
      .regex(/^\d{4}-\d{2}$/)
      .nullable(),
    { title, description, columnType: 'yearmonth' },
  )

const word = z.string().regex(/^[A-Za-z0-9.]+$/)

/**
 * The columns of `runs` that every kind of run has; what was read off follows them. First what all runs
 * of a setup in a session have alike.
 */
export const RunRow = z.strictObject({
  session_key: column(Key, {
    title: 'Session',
    description: 'Key of the session of flying the run belongs to, drawn anew for each release.',
  }),
  pilot_key: column(Key, {
    title: 'Pilot',
    description:
      'Key of the pilot, drawn anew for each release: it leads to no account and to no key of another release.',
  }),
  setup_id: setupId,
  interest: column(z.enum(labelsOf(INTERESTS.length, interestLabel)).nullable(), {
    title: 'Declared interest',
    description:
      'Interest in the result, as declared; "interested": one of them; empty where suppressed.',
  }),
  flown_year: column(z.int().nullable(), {
    title: 'Year',
    description: 'Year of the flight, where all months from flown_from to flown_to lie in one.',
  }),
  flown_month: month('Month', 'Month of the flight, where flown_from and flown_to are the same.'),
  flown_from: month(
    'Earliest month',
    'The flight was in this month or later; empty where suppressed.',
  ),
  flown_to: month(
    'Latest month',
    'The flight was in this month or earlier; empty where suppressed.',
  ),
  all_up_mass_class: column(rangesOf(MASS_BOUNDS).nullable(), {
    title: 'Class of all-up mass',
    description: `All-up mass in the classes of the rankings. ${MAY_BE_RANGE}`,
    unit: 'kg',
  }),
  elevation_class: column(rangesOf(ELEVATION_BOUNDS).nullable(), {
    title: 'Class of elevation',
    description: `Elevation of the field above sea level. ${MAY_BE_RANGE}`,
    unit: 'm',
  }),
  wing_area_class: column(rangesOf(WING_AREA_BOUNDS).nullable(), {
    title: 'Class of wing area',
    description: `Flat area of the wing. ${MAY_BE_RANGE}`,
    unit: 'm²',
  }),
  air_motion: column(
    z
      .enum(labelsOf(AIR_MOTIONS.length, (low, high) => wordsLabel(AIR_MOTIONS, low, high)))
      .nullable(),
    {
      title: 'Motion of the air',
      description: `The pilot's word for the vertical motion of the air. ${MAY_BE_RANGE}`,
    },
  ),
  run_key: column(Key, {
    title: 'Run',
    description: 'Key of the run, drawn anew for each release.',
  }),
  kind: column(word, { title: 'Kind of run', description: 'What was measured, such as climb.' }),
  metric: column(metric.nullable(), {
    ...METRIC_TOLD,
    description: `${METRIC_TOLD.description} Empty: the run is no evidence for any fit.`,
  }),
  log_value: column(z.number().nullable(), {
    title: 'Result',
    description: 'Natural logarithm of the metric at the reference state. Not rounded.',
    unit: '1',
  }),
  own_standard_uncertainty: column(z.number().min(0).nullable(), {
    title: 'Own uncertainty',
    description: 'Standard uncertainty of log_value from causes of this run alone. Not rounded.',
    unit: '1',
  }),
  shared_standard_uncertainty: column(z.number().min(0).nullable(), {
    title: 'Shared uncertainty',
    description:
      'Standard uncertainty of log_value from causes common to all runs of the session. Not rounded. What reaches beyond the session stands in the table systematic.',
    unit: '1',
  }),
  normalized_metric: column(word, {
    title: 'Metric shown',
    description: 'What normalized_value is, in the words of the API.',
  }),
  normalized_value: column(z.number(), {
    title: 'Result at the reference state',
    description: 'The run brought to the reference state, in normalized_unit.',
  }),
  normalized_unit: column(z.string(), {
    title: 'Unit',
    description: 'Unit of normalized_value and of its uncertainty.',
  }),
  normalized_standard_uncertainty: column(z.number().min(0), {
    title: 'Uncertainty at the reference state',
    description: 'Standard uncertainty (k = 1) of normalized_value, all causes together.',
  }),
  method_version: column(word, {
    title: 'Version of the method',
    description: 'Version of the normalisation that gave the result.',
  }),
  reference_id: column(z.string().regex(/^[A-Za-z0-9.-]+$/), {
    title: 'Reference state',
    description: 'State of air, mass and wing the result refers to.',
  }),
})

/** An error of a run that more flights do not average out. */
export const SystematicRow = z.strictObject({
  run_key: column(Key, { title: 'Run', description: 'Key of the run in the table runs.' }),
  cause: column(z.string(), { title: 'Cause', description: 'What varies.' }),
  reach: column(z.enum(['everyone', 'powerplant', 'setup', 'pilot']), {
    title: 'Reach',
    description:
      'Who carries the same error: everybody, all runs with the powerplant, all runs of the setup, or all sessions of the pilot.',
  }),
  effect: column(z.number(), {
    title: 'Effect',
    description: 'Signed change of log_value when the cause lies one standard uncertainty off.',
    unit: '1',
  }),
})
