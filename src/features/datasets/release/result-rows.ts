import type { FitWithEvidence } from '../../../core/comparison/stored-fit.ts'
import { COMPONENTS } from '../../../core/mixed/components.ts'
import type { Row } from '../files/csv.ts'
import type { ReleasedFit } from './released-fits.ts'

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
