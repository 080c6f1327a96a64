import { ApiProblem } from '../../contract/problems.ts'
import { PLAIN } from '../../core/comparison/fit-about.ts'
import { restoreFit, type StoredFitHeader } from '../../core/comparison/stored-fit.ts'
import { COMPONENTS, type Component, perComponent } from '../../core/mixed/components.ts'
import type { NestedFit } from '../../core/mixed/fit-result.ts'
import { type ComponentSpread, componentSpreads } from '../../core/mixed/heterogeneity.ts'
import type { Database } from '../../db/client.ts'
import { notesOn } from './notes.ts'
import { showDownweighted, showReport } from './report.ts'
import { findFit } from './repository.ts'
import type { Fit } from './schema.ts'

/** The model behind an answer, or the problem "not-found". */
export async function getFit(db: Database, id: string): Promise<Fit> {
  const stored = await findFit(db, id)
  if (stored === null) throw new ApiProblem('not-found', { detail: `There is no fit ${id}.` })
  const { quantity, modelVersion, methodVersion, createdAt, report, companionsMade } = stored
  const { withoutInterested, robust } = stored
  const bytes = new Uint8Array(stored.numbers)
  const header = stored.header as StoredFitHeader
  const { fit } = restoreFit({ header, numbers: new Float64Array(bytes.buffer) })
  const spreads = componentSpreads(fit)
  const { variant = PLAIN, downweighted } = header.about ?? {}
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
    start: startOf(fit),
    standardErrorsKnown: fit.standardErrorsKnown,
    counts: fit.counts,
    variant,
    otherFits: companionsMade ? 'made' : 'pending',
    siblings: { withoutInterested, robust },
    heterogeneity: perComponent((j) => asPercent(spreads[COMPONENTS[j]!])),
    notes: notesOn(fit, report),
    report: report === null ? null : showReport(report),
    downweighted: downweighted === undefined ? null : showDownweighted(downweighted),
    varianceComponents: perComponent((j) => describe(COMPONENTS[j]!)),
    logLikelihood: Number.isFinite(fit.logLikelihood) ? fit.logLikelihood : null,
  }
}

function startOf({ options: { start }, keptStart }: NestedFit): Fit['start'] {
  if (start === null) return null
  if (!keptStart) return { variances: start, kept: null }
  const { decrement, shift } = keptStart
  return { variances: start, kept: { decrement, largestShift: shift } }
}

/** A standard deviation of logarithms as per cent. */
function asPercent({ standardDeviation, interval95 }: ComponentSpread) {
  const percent = (sd: number) => 100 * Math.expm1(sd)
  return {
    standardDeviationPercent: Number.isFinite(standardDeviation) ? percent(standardDeviation) : 0,
    interval95Percent:
      interval95 === null
        ? null
        : ([percent(interval95[0]), percent(interval95[1])] as [number, number]),
  }
}
