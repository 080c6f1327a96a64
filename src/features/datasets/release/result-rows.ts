import { answerForSetup, type Question } from '../../../core/comparison/compare.ts'
import { resolveConditions } from '../../../core/comparison/conditions.ts'
import { MASS_CLASSES, type MassClass } from '../../../core/comparison/mass-classes.ts'
import {
  METRIC_FACTS,
  METRICS,
  type Metric,
  type Quantity,
} from '../../../core/comparison/metric.ts'
import { rankSetups } from '../../../core/comparison/rank-setups.ts'
import {
  type FitWithEvidence,
  restoreFit,
  type StoredFitHeader,
  viewOf,
} from '../../../core/comparison/stored-fit.ts'
import { COMPONENTS } from '../../../core/mixed/components.ts'
import type { SetupFacts } from '../../../db/catalogue-facts.ts'
import type { Row } from '../files/csv.ts'

/** A fit of the snapshot's evidence, as the fits feature gives it. */
export interface SnapshotFit {
  readonly id: string
  readonly runs: number
  readonly converged: boolean
  readonly header: StoredFitHeader
  readonly numbers: Uint8Array
}

/** A fit of the release, unpacked. */
export interface ReleasedFit {
  readonly id: string
  readonly quantity: Quantity
  readonly runs: number
  readonly whole: FitWithEvidence
}

export function unpackFit(
  quantity: Quantity,
  { id, runs, header, numbers }: SnapshotFit,
): ReleasedFit {
  const bytes = new Uint8Array(numbers) // a copy that begins at 0, as doubles want it
  const whole = restoreFit({ header, numbers: new Float64Array(bytes.buffer) })
  return { id, quantity, runs, whole }
}

/** The table effects. */
export function effectRows({ quantity, whole }: ReleasedFit): Row[] {
  const { fit } = whole
  const K = fit.setups.length
  return fit.setups.map((id, k) => ({
    metric: quantity,
    setup_id: id,
    estimate: fit.beta[k]!,
    standard_error: finiteOrNull(Math.sqrt(fit.covariance[k + k * K]!)),
    standard_error_with_systematic: finiteOrNull(Math.sqrt(withTerms(whole, k + k * K))),
  }))
}

/** The table fit. */
export function fitRows({ quantity, whole }: ReleasedFit): Row[] {
  const { fit } = whole
  const K = fit.setups.length
  const rows: Row[] = COMPONENTS.map((component) => ({
    metric: quantity,
    part: 'varianceComponent',
    component,
    status: fit.status[component],
    value: finiteOrNull(fit.theta[component]),
  }))
  const parts = {
    covariance: (at: number) => fit.covariance[at]!,
    covarianceWithSystematic: (at: number) => withTerms(whole, at),
  }
  for (const [part, valueAt] of Object.entries(parts)) {
    for (let b = 0; b < K; b++) {
      for (let a = b; a < K; a++) {
        rows.push({
          metric: quantity,
          part,
          setup_id_a: fit.setups[a]!,
          setup_id_b: fit.setups[b]!,
          value: finiteOrNull(valueAt(a + b * K)),
        })
      }
    }
  }
  return rows
}

function withTerms({ fit, terms }: FitWithEvidence, at: number): number {
  return terms.reduce((sum, { covariance }) => sum + covariance[at]!, fit.covariance[at]!)
}

function finiteOrNull(value: number): number | null {
  return Number.isFinite(value) ? value : null
}

/** The table aggregates: the rankings of every metric and weight class, at sea level on a standard day. */
export function aggregateRows(
  fits: readonly ReleasedFit[],
  facts: ReadonlyMap<string, SetupFacts>,
): Row[] {
  return METRICS.flatMap((metric) => {
    const released = fits.find(({ quantity }) => quantity === METRIC_FACTS[metric].quantity)
    if (released === undefined) return []
    return (Object.keys(MASS_CLASSES) as MassClass[]).flatMap((massClass) =>
      rowsOfClass(metric, massClass, released, facts),
    )
  })
}

function rowsOfClass(
  metric: Metric,
  massClass: MassClass,
  { whole }: ReleasedFit,
  facts: ReadonlyMap<string, SetupFacts>,
): Row[] {
  const { state } = resolveConditions({ massClass, elevationM: 0 }, null)
  const question: Question = { metric, state, fit: viewOf(whole) }
  const setups = whole.fit.setups.flatMap((id) => facts.get(id) ?? [])
  const ranks = rankSetups(
    question,
    setups.filter(({ safety }) => safety.state !== 'doNotFly'),
  )
  return setups.map((setup) => {
    const answer = answerForSetup(question, setup)
    const rank = ranks.get(setup.setupId)
    const evidence = question.fit.evidenceOf(setup.setupId)
    const given = answer.refusal === null ? answer : null
    return {
      metric,
      all_up_mass_class: massClass,
      all_up_mass_kg: state.allUpMassKg,
      setup_id: setup.setupId,
      estimate: given?.value ?? null,
      unit: METRIC_FACTS[metric].unit,
      standard_uncertainty: given?.standardUncertainty ?? null,
      interval95_low: given?.interval95[0] ?? null,
      interval95_high: given?.interval95[1] ?? null,
      degrees_of_freedom: given?.degreesOfFreedom ?? null,
      refused: answer.refusal?.code ?? null,
      rank_median: rank?.median ?? null,
      rank_low: rank?.interval95[0] ?? null,
      rank_high: rank?.interval95[1] ?? null,
      p_score: rank?.pScore ?? null,
      sessions: evidence.sessions,
      pilots: evidence.pilots,
      runs: evidence.runs,
      independent_sessions: evidence.independentSessions,
    }
  })
}
