import { ApiProblem } from '../../contract/problems.ts'
import { restoreFit, type StoredFitHeader } from '../../core/comparison/stored-fit.ts'
import { COMPONENTS, type Component, perComponent } from '../../core/mixed/components.ts'
import type { Database } from '../../db/client.ts'
import { findFit } from './repository.ts'
import type { Fit } from './schema.ts'

/** The model behind an answer, or the problem "not-found". */
export async function getFit(db: Database, id: string): Promise<Fit> {
  const stored = await findFit(db, id)
  if (stored === null) throw new ApiProblem('not-found', { detail: `There is no fit ${id}.` })
  const { quantity, modelVersion, methodVersion, createdAt } = stored
  const bytes = new Uint8Array(stored.numbers)
  const header = stored.header as unknown as StoredFitHeader
  const { fit } = restoreFit({ header, numbers: new Float64Array(bytes.buffer) })
  const describe = (component: Component) => ({
    variance: fit.theta[component],
    status: fit.status[component],
    mergedInto: fit.mergedInto[component],
    degreesOfFreedom: fit.separability[component],
  })
  return {
    id,
    quantity: quantity as Fit['quantity'],
    scale: 'naturalLogarithm',
    modelVersion,
    methodVersion,
    createdAt: createdAt.toISOString(),
    converged: fit.converged,
    standardErrorsKnown: fit.standardErrorsKnown,
    counts: fit.counts,
    varianceComponents: perComponent((j) => describe(COMPONENTS[j]!)),
    logLikelihood: Number.isFinite(fit.logLikelihood) ? fit.logLikelihood : null,
  }
}
