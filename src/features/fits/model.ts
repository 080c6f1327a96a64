import {
  type AdditiveModel,
  designOfParts,
  type SetupParts,
} from '../../core/comparison/additive-view.ts'
import { downweightedIn } from '../../core/comparison/downweighted.ts'
import { type FitVariant, PLAIN } from '../../core/comparison/fit-about.ts'
import { type FitReport, reportOn } from '../../core/comparison/fit-report.ts'
import type { StoredFitHeader } from '../../core/comparison/stored-fit.ts'
import { storeFit } from '../../core/comparison/stored-fit.ts'
import { decompose } from '../../core/mixed/decomposition.ts'
import { gatherEvidence } from '../../core/mixed/evidence.ts'
import { fitNested, type NestedFit } from '../../core/mixed/fit.ts'
import { buildLayout, type Layout, type Observation } from '../../core/mixed/layout.ts'
import { fitRobust, type RobustFit } from '../../core/mixed/robust.ts'
import {
  type SystematicCause,
  type SystematicReach,
  systematicTerms,
} from '../../core/mixed/systematic.ts'
import type { SystematicEffect } from '../../core/normalise/types.ts'

/** The runs that count, column by column: setup, session and pilot by id; y and uncertainties as logarithms. */
export interface EvidenceRows {
  readonly setup: readonly string[]
  readonly session: readonly string[]
  readonly pilot: readonly string[]
  /** ln of the quantity at the reference state. */
  readonly y: Float64Array
  /** Standard uncertainty of y from causes of the run alone. */
  readonly own: Float64Array
  /** Standard uncertainty of y from causes common to the session. */
  readonly shared: Float64Array
  /** Submitted by somebody with an interest; null: a release does not tell, and no claim is made. */
  readonly interested: readonly (boolean | null)[]
  /** Errors that reach beyond the session, as effects on y. */
  readonly systematic: readonly (readonly SystematicEffect[])[]
  /** Ids of the parts of every setup; absent: no model of parts. */
  readonly parts?: Readonly<Record<string, SetupParts>>
  /** ln of the all-up mass [kg]; NaN where it is not known. Absent: nothing is said of mass. */
  readonly logMass?: Float64Array
  /** Place of the run in its submission (RFC 6901). */
  readonly pointer?: readonly string[]
}

/** One fit to be made. */
export type FitTask = EvidenceRows & { readonly variant?: FitVariant }

/** A fit ready to be stored. */
export interface FittedModel {
  readonly runs: number
  readonly converged: boolean
  readonly header: StoredFitHeader
  readonly numbers: Uint8Array
}

/** What is made of the same evidence after its fit. */
export interface FitBeside {
  /** Null where it cannot be made. */
  readonly robust: FittedModel | null
  /** What stands out; null where the fit knows no uncertainty. */
  readonly report: FitReport | null
}

/**
 * Fits the evidence: nested REML with the runs' own uncertainties, what a session shares as known
 * variance of that session (its runs' mean squared shared uncertainty), and what reaches beyond a
 * session as named terms beside the fit.
 */
export function fitEvidence({ variant = PLAIN, ...rows }: FitTask): FittedModel {
  return pack(rows, fitPlain(rows), variant)
}

/** What need not be known before the fit answers: its report and the robust fit. */
export function lookBeside({ variant = PLAIN, ...rows }: FitTask): FitBeside {
  const plain = fitPlain(rows)
  const { layout, fit } = plain
  const { sharedSessions } = gatherEvidence(layout)
  const { logMass, pointer } = rows
  const robust = fitRobust(layout, fit)
  return {
    robust: robust === null ? null : packRobust(rows, robust, { plain: fit, variant }),
    report: reportOn({ layout, fit, sharedSessions, logMass, pointers: pointer }),
  }
}

interface Fitted {
  readonly layout: Layout
  readonly fit: NestedFit
}

function fitPlain(rows: EvidenceRows): Fitted {
  const layout = buildLayout(observationsOf(rows), { knownSessionVariance: sharedVariances(rows) })
  return { layout, fit: fitNested(layout) }
}

function pack(rows: EvidenceRows, { layout, fit }: Fitted, variant: FitVariant): FittedModel {
  const additive = modelOfParts(rows, fit)
  const { header, numbers } = storeFit({
    fit,
    terms: systematicTerms(layout, fit, causesOf(rows)),
    evidence: gatherEvidence(layout),
    interestedSessions: countInterested(rows, layout),
    ...(additive === null ? {} : { additive }),
  })
  return {
    runs: rows.y.length,
    converged: fit.converged,
    header: { ...header, about: { variant, meanKnownVariance: meanSquare(rows.own) } },
    numbers: new Uint8Array(numbers.buffer, numbers.byteOffset, numbers.byteLength),
  }
}

function packRobust(
  rows: EvidenceRows,
  robust: RobustFit,
  { plain, variant }: { readonly plain: NestedFit; readonly variant: FitVariant },
): FittedModel {
  const { header, ...model } = pack(rows, robust, { ...variant, robust: true })
  const downweighted = downweightedIn(robust, plain, rows.pointer)
  return { ...model, header: { ...header, about: { ...header.about!, downweighted } } }
}

function meanSquare(values: Float64Array): number {
  return values.reduce((sum, u) => sum + u * u, 0) / Math.max(1, values.length)
}

/** What the parts bring; null where parts are not known or the fit has no standard errors. */
function modelOfParts({ parts }: EvidenceRows, fit: NestedFit): AdditiveModel | null {
  if (parts === undefined) return null
  const ofSetups = fit.setups.map((setup) => parts[setup]!)
  const decomposition = decompose(fit, designOfParts(ofSetups))
  return decomposition === null ? null : { parts: ofSetups, decomposition }
}

function observationsOf({ setup, session, pilot, y, own }: EvidenceRows): Observation[] {
  return setup.map((id, i) => ({
    setup: id,
    session: session[i]!,
    pilot: pilot[i]!,
    y: y[i]!,
    u: own[i]!,
  }))
}

function sharedVariances({ session, shared }: EvidenceRows): Map<string, number> {
  const sums = new Map<string, { sum: number; runs: number }>()
  session.forEach((id, i) => {
    const so = sums.get(id) ?? { sum: 0, runs: 0 }
    sums.set(id, { sum: so.sum + shared[i]! ** 2, runs: so.runs + 1 })
  })
  return new Map([...sums].map(([id, { sum, runs }]) => [id, sum / runs]))
}

function countInterested({ setup, session, interested }: EvidenceRows, layout: Layout): number[] {
  const sessions = new Map<string, Set<string>>()
  setup.forEach((id, i) => {
    if (interested[i] !== true) return
    sessions.set(id, (sessions.get(id) ?? new Set()).add(session[i]!))
  })
  return layout.setupIds.map((id) => sessions.get(id)?.size ?? 0)
}

/** The effects of all runs by cause and reach, in a stable order. */
function causesOf({ systematic }: EvidenceRows): SystematicCause[] {
  const causes = new Map<string, { cause: string; reach: SystematicReach; effect: Float64Array }>()
  systematic.forEach((effects, run) => {
    for (const { cause, reach, effect } of effects) {
      const key = `${cause} ${reach}`
      const known = causes.get(key) ?? { cause, reach, effect: new Float64Array(systematic.length) }
      known.effect[run]! += effect
      causes.set(key, known)
    }
  })
  return [...causes].sort(([a], [b]) => (a < b ? -1 : 1)).map(([, cause]) => cause)
}
