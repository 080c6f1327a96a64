import { type AdditiveModel, designOfParts } from '../../core/comparison/additive-view.ts'
import { downweightedIn } from '../../core/comparison/downweighted.ts'
import { type FitVariant, PLAIN } from '../../core/comparison/fit-about.ts'
import { type FitReport, reportOn } from '../../core/comparison/fit-report.ts'
import type { StoredFitHeader } from '../../core/comparison/stored-fit.ts'
import { storeFit } from '../../core/comparison/stored-fit.ts'
import type { PerComponent } from '../../core/mixed/components.ts'
import { decompose } from '../../core/mixed/decomposition.ts'
import { gatherEvidence } from '../../core/mixed/evidence.ts'
import { fitNested, type NestedFit, REFRESH_TOLERANCE } from '../../core/mixed/fit.ts'
import { buildLayout, type Layout, type ObservationColumns } from '../../core/mixed/layout.ts'
import { fitRobust, type RobustFit } from '../../core/mixed/robust.ts'
import { systematicTerms } from '../../core/mixed/systematic.ts'
import { type EvidenceRows, INTEREST, pointersOf } from './evidence-rows.ts'

/** One fit to be made. */
export type FitTask = EvidenceRows & {
  readonly variant?: FitVariant
  /** Variances to start from, and to keep where the evidence asks for no others; null: from the data. */
  readonly start?: PerComponent<number> | null
}

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
export function fitEvidence({ variant = PLAIN, start = null, ...rows }: FitTask): FittedModel {
  return pack(rows, fitPlain(rows, start), variant)
}

/** What need not be known before the fit answers: its report and the robust fit. */
export function lookBeside({ variant = PLAIN, start = null, ...rows }: FitTask): FitBeside {
  const plain = fitPlain(rows, start)
  const { layout, fit } = plain
  const { sharedSessions } = gatherEvidence(layout)
  const { logMass } = rows
  const robust = fitRobust(layout, fit)
  return {
    robust: robust === null ? null : packRobust(rows, robust, { plain: fit, variant }),
    report: reportOn({ layout, fit, sharedSessions, logMass, pointers: pointersOf(rows) }),
  }
}

/** The robust fit alone; null where it cannot be made. */
export function fitRobustly({
  variant = PLAIN,
  start = null,
  ...rows
}: FitTask): FittedModel | null {
  const { layout, fit } = fitPlain(rows, start)
  const robust = fitRobust(layout, fit)
  return robust === null ? null : packRobust(rows, robust, { plain: fit, variant })
}

interface Fitted {
  readonly layout: Layout
  readonly fit: NestedFit
}

function fitPlain(rows: EvidenceRows, start: PerComponent<number> | null): Fitted {
  const layout = buildLayout(columnsOf(rows), { knownSessionVariance: sharedVariances(rows) })
  return {
    layout,
    fit: fitNested(layout, start === null ? {} : { start, keepStart: REFRESH_TOLERANCE }),
  }
}

function pack(rows: EvidenceRows, { layout, fit }: Fitted, variant: FitVariant): FittedModel {
  const additive = modelOfParts(rows, fit)
  const { header, numbers } = storeFit({
    fit,
    terms: systematicTerms(layout, fit, rows.systematic, powerplantsOf(rows)),
    evidence: gatherEvidence(layout),
    interestedSessions: countInterested(rows, layout),
    ...(additive === null ? {} : { additive }),
  })
  return {
    runs: rows.y.length,
    converged: fit.converged,
    header: {
      ...header,
      about: { variant, meanKnownVariance: meanSquare(rows.own), theta: fit.theta },
    },
    numbers: new Uint8Array(numbers.buffer, numbers.byteOffset, numbers.byteLength),
  }
}

function packRobust(
  rows: EvidenceRows,
  robust: RobustFit,
  { plain, variant }: { readonly plain: NestedFit; readonly variant: FitVariant },
): FittedModel {
  const { header, ...model } = pack(rows, robust, { ...variant, robust: true })
  const downweighted = downweightedIn(robust, plain, pointersOf(rows))
  return { ...model, header: { ...header, about: { ...header.about!, downweighted } } }
}

function meanSquare(values: Float64Array): number {
  return values.reduce((sum, u) => sum + u * u, 0) / Math.max(1, values.length)
}

/** Where parts are not known, each setup counts as having a powerplant of its own. */
function powerplantsOf({ parts }: EvidenceRows): (setupId: string) => string {
  return (setupId) => parts?.[setupId]?.powerplant ?? setupId
}

/** What the parts bring; null where parts are not known or the fit has no standard errors. */
function modelOfParts({ parts }: EvidenceRows, fit: NestedFit): AdditiveModel | null {
  if (parts === undefined) return null
  const ofSetups = fit.setups.map((setup) => parts[setup]!)
  const decomposition = decompose(fit, designOfParts(ofSetups))
  return decomposition === null ? null : { parts: ofSetups, decomposition }
}

function columnsOf({ setup, session, pilot, y, own }: EvidenceRows): ObservationColumns {
  return {
    y,
    u: own,
    ...{ setup: setup.codes, session: session.codes, pilot: pilot.codes },
    ...{ setupIds: setup.ids, sessionIds: session.ids, pilotIds: pilot.ids },
  }
}

function sharedVariances({ session: { ids, codes }, shared }: EvidenceRows): Map<string, number> {
  const sums = new Float64Array(ids.length)
  const runs = new Int32Array(ids.length)
  codes.forEach((code, i) => {
    sums[code]! += shared[i]! ** 2
    runs[code]!++
  })
  return new Map(ids.map((id, code) => [id, sums[code]! / runs[code]!]))
}

/** Sessions by somebody with an interest, per setup of the layout. */
function countInterested({ setup, session, interested }: EvidenceRows, layout: Layout): number[] {
  const sessions = new Map<string, Set<number>>()
  interested.forEach((yes, i) => {
    if (yes !== INTEREST.yes) return
    const id = setup.ids[setup.codes[i]!]!
    sessions.set(id, (sessions.get(id) ?? new Set()).add(session.codes[i]!))
  })
  return layout.setupIds.map((id) => sessions.get(id)?.size ?? 0)
}
