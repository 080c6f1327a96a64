import { z } from 'zod'

import { MASS_CLASSES } from '../../../core/comparison/mass-classes.ts'
import { METRICS } from '../../../core/comparison/metric.ts'
import { AGGREGATE_VARIANTS } from '../release/released-fits.ts'
import { column } from './column.ts'
import { METRIC_TOLD, metric, setupId } from './run-table.ts'

const count = z.int().min(0)

/** What is compared: an engine with a propeller on a frame. */
export const SetupRow = z.strictObject({
  setup_id: setupId,
  name: column(z.string(), { title: 'Name', description: 'Engine, propeller and frame.' }),
  powerplant_id: column(z.uuid(), {
    title: 'Powerplant',
    description: 'See the table components.',
  }),
  propeller_id: column(z.uuid(), { title: 'Propeller', description: 'See the table components.' }),
  frame_id: column(z.uuid(), { title: 'Frame', description: 'See the table components.' }),
  safety_state: column(z.enum(['none', 'advisory', 'doNotFly']), {
    title: 'State of safety',
    description:
      'Reports that stood when the release was made. "none" is no statement that a setup is safe.',
  }),
})

const optional = (unit: string, title: string, description: string) =>
  column(z.number().min(0).nullable(), { title, description, unit })

/** A powerplant, propeller or frame of the setups in the release. */
export const ComponentRow = z.strictObject({
  component_id: column(z.uuid(), {
    title: 'Component',
    description: 'Identifier in the catalogue.',
  }),
  kind: column(z.enum(['powerplant', 'propeller', 'frame']), {
    title: 'Kind',
    description: 'What it is.',
  }),
  maker: column(z.string(), { title: 'Maker', description: 'Who makes it.' }),
  model: column(z.string(), { title: 'Model', description: 'What it is sold as.' }),
  drive: column(z.enum(['twoStroke', 'fourStroke', 'electric']).nullable(), {
    title: 'Drive',
    description: 'Powerplants: what drives it.',
  }),
  tune: column(z.enum(['asDelivered', 'modified']).nullable(), {
    title: 'Tune',
    description: 'Powerplants: whether it was modified; empty counts as delivered.',
  }),
  displacement_cc: optional('cm³', 'Swept volume', 'Powerplants.'),
  rated_power_kw: optional('kW', 'Rated power', 'Powerplants: as stated by the maker.'),
  rated_rpm: optional('1/min', 'Rated speed', 'Powerplants: engine speed at the rated power.'),
  reduction_ratio: optional(
    '1',
    'Reduction ratio',
    'Powerplants: engine revolutions per propeller revolution.',
  ),
  diameter_cm: optional('cm', 'Diameter', 'Propellers: diameter of the disc.'),
  pitch_cm: optional('cm', 'Pitch', 'Propellers: as stated by the maker.'),
  blades: column(z.int().min(1).nullable(), {
    title: 'Blades',
    description: 'Propellers: how many.',
  }),
  mass_kg: optional('kg', 'Mass', 'As stated in the catalogue.'),
})

const rank = (title: string, description: string) =>
  column(z.number().min(1).nullable(), { title, description, unit: '1' })

/** A setup for a weight class: what the rankings show. */
export const AggregateRow = z.strictObject({
  metric: column(z.enum(METRICS), {
    title: 'Metric',
    description: 'Metric of the rankings, at sea level in the standard atmosphere, reference wing.',
  }),
  quantity: column(metric, {
    title: 'Quantity',
    description:
      'What the model behind it estimates; sound at the ear and at a distance are two quantities.',
  }),
  variant: column(z.enum(AGGREGATE_VARIANTS), {
    title: 'Evidence',
    description:
      'Runs it rests on: all; those flown in the weight class; all but those submitted by people with a declared interest; or all again, where what does not fit counts less (robust).',
  }),
  all_up_mass_class: column(z.enum(Object.keys(MASS_CLASSES) as [string, ...string[]]), {
    title: 'Weight class',
    description: 'Class of all-up mass; figures are those of the mass that stands for it.',
  }),
  all_up_mass_kg: column(z.number().min(0), {
    title: 'All-up mass',
    description: 'The mass that stands for the class.',
    unit: 'kg',
  }),
  setup_id: setupId,
  estimate: column(z.number().nullable(), {
    title: 'Estimate',
    description: 'Value of the metric, in unit; empty where refused.',
  }),
  unit: column(z.string(), { title: 'Unit', description: 'Unit of estimate and interval.' }),
  standard_uncertainty: column(z.number().min(0).nullable(), {
    title: 'Standard uncertainty',
    description: 'Of estimate (k = 1), systematic causes included, in unit.',
  }),
  interval95_low: column(z.number().nullable(), {
    title: 'Lower end',
    description: 'Lower end of the 95 % interval, in unit.',
  }),
  interval95_high: column(z.number().nullable(), {
    title: 'Upper end',
    description: 'Upper end of the 95 % interval, in unit.',
  }),
  degrees_of_freedom: column(z.number().min(0).nullable(), {
    title: 'Degrees of freedom',
    description: 'Of the standard uncertainty (Satterthwaite).',
    unit: '1',
  }),
  refused: column(z.string().nullable(), {
    title: 'Refused',
    description: 'Why no estimate is given: noEvidence, oneSession, doesNotClimb and others.',
  }),
  rank_median: rank('Median rank', 'Empty where not ranked.'),
  rank_low: rank('Best plausible rank', 'Better end of the 95 % interval of the rank.'),
  rank_high: rank('Worst plausible rank', 'Worse end of the 95 % interval of the rank.'),
  p_score: column(z.number().min(0).max(1).nullable(), {
    title: 'P-score',
    description: 'Mean probability of being better than another ranked setup.',
    unit: '1',
  }),
  sessions: column(count, { title: 'Sessions', description: 'Sessions with the setup.' }),
  pilots: column(count, { title: 'Pilots', description: 'Pilots who flew the setup.' }),
  runs: column(count, { title: 'Runs', description: 'Runs that count.' }),
  independent_sessions: column(count, {
    title: 'Sessions beside another',
    description: 'Sessions in which it was flown together with another setup.',
  }),
})

/** What the model estimates: the table that reproduce.R writes again. */
export const EffectRow = z.strictObject({
  metric: column(metric, METRIC_TOLD),
  setup_id: setupId,
  estimate: column(z.number(), {
    title: 'Estimate',
    description: 'Mean of log_value of the setup in the nested model (REML).',
    unit: '1',
  }),
  standard_error: column(z.number().min(0).nullable(), {
    title: 'Standard error',
    description:
      'Of estimate, from the nested model alone: scatter of pilots, sessions, cells and runs, and the known own and shared uncertainties. Empty where the runs do not show their scatter.',
    unit: '1',
  }),
  standard_error_with_systematic: column(z.number().min(0).nullable(), {
    title: 'Standard error with systematic terms',
    description:
      'As standard_error, with what the causes in the table systematic add after the fit. What intervals of the service rest on.',
    unit: '1',
  }),
})

/** The model itself, one number per row. */
export const FitRow = z.strictObject({
  metric: column(metric, METRIC_TOLD),
  part: column(z.enum(['varianceComponent', 'covariance', 'covarianceWithSystematic']), {
    title: 'Part',
    description:
      'A variance component, or an entry of the covariance of the estimates (lower triangle), without or with the systematic terms.',
  }),
  component: column(z.enum(['pilot', 'session', 'cell', 'run']).nullable(), {
    title: 'Component',
    description: 'For a variance component: whose. A cell is a setup within a session.',
  }),
  status: column(z.enum(['estimated', 'notDetected', 'notSeparable', 'fixed']).nullable(), {
    title: 'Status',
    description:
      'For a variance component: notDetected, its estimate is zero; notSeparable, the design cannot tell it apart and the model leaves it out.',
  }),
  setup_id_a: column(z.uuid().nullable(), {
    title: 'First setup',
    description: 'For a covariance: row.',
  }),
  setup_id_b: column(z.uuid().nullable(), {
    title: 'Second setup',
    description: 'For a covariance: column.',
  }),
  value: column(z.number().nullable(), {
    title: 'Value',
    description: 'Variance or covariance, on the scale of log_value.',
    unit: '1',
  }),
})
