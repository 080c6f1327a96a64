import { contrast } from '../mixed/contrasts.ts'
import { type Evidence, evidenceTier, restsOnOneSession } from '../mixed/evidence.ts'
import type { NestedFit } from '../mixed/fit-result.ts'
import { type FitHeader, packFit, unpackFit } from '../mixed/serialise.ts'
import type { FitView } from './fit-view.ts'

/** A fit together with the evidence it rests on. */
export interface FitWithEvidence {
  readonly fit: NestedFit
  readonly evidence: Evidence
  /** Sessions by people who sell, make or were given what they tested, per setup of the fit. */
  readonly interestedSessions: readonly number[]
}

/** The part of a stored fit that is JSON. */
export interface StoredFitHeader {
  readonly fit: FitHeader
  readonly setups: Evidence['setups']
  readonly spareSessions: number
  readonly interestedSessions: readonly number[]
}

/** A fit as it is stored: a JSON header and one block of numbers. */
export interface StoredFitParts {
  readonly header: StoredFitHeader
  readonly numbers: Float64Array
}

/**
 * Splits a fit and its evidence for storing: the numbers of the fit, then K × K counts of shared
 * sessions.
 *
 * @param whole fit, evidence of the same layout, interested sessions in the order of the setups
 * @returns header and numbers; {@link restoreFit} gives the same back bit for bit
 * @source derived here
 */
export function storeFit({ fit, evidence, interestedSessions }: FitWithEvidence): StoredFitParts {
  const packed = packFit(fit)
  const numbers = new Float64Array(packed.numbers.length + evidence.sharedSessions.length)
  numbers.set(packed.numbers)
  numbers.set(evidence.sharedSessions, packed.numbers.length)
  const { setups, spareSessions } = evidence
  return { header: { fit: packed.header, setups, spareSessions, interestedSessions }, numbers }
}

/**
 * Puts a stored fit together again.
 *
 * @param parts header (also after a trip through JSON) and numbers
 * @returns the fit and its evidence
 * @throws {InvalidPackedFitError} if header and numbers do not belong together
 * @source derived here
 */
export function restoreFit({ header, numbers }: StoredFitParts): FitWithEvidence {
  const setupIds = header.fit.setups
  const split = numbers.length - setupIds.length ** 2
  const fit = unpackFit({ header: header.fit, numbers: numbers.subarray(0, split) })
  const sharedSessions = Int32Array.from(numbers.subarray(split))
  const { setups, spareSessions, interestedSessions } = header
  return { fit, evidence: { setupIds, setups, sharedSessions, spareSessions }, interestedSessions }
}

/**
 * A fit as comparisons ask it.
 *
 * @param whole fit and evidence
 * @returns the view; it keeps the fit and copies nothing
 * @source derived here
 */
export function viewOf({ fit, evidence }: FitWithEvidence): FitView {
  const index = new Map(fit.setups.map((id, k) => [id, k]))
  const K = fit.setups.length
  const nothing = { sessions: 0, pilots: 0, runs: 0, independentSessions: 0 }
  const setupOf = (id: string) => {
    const k = index.get(id)
    return k === undefined ? null : evidence.setups[k]!
  }
  return {
    logQuantityOf(id) {
      const k = index.get(id)
      return k === undefined ? null : fit.beta[k]!
    },
    contrast: (weights) => contrast(fit, weights),
    covarianceOf: (a, b) => fit.covariance[index.get(a)! + index.get(b)! * K]!,
    tierOf: (a, b) => evidenceTier(evidence, a, b),
    restsOnOneSession: (a, b) => restsOnOneSession(evidence, a, b),
    groupOf: (id) => setupOf(id)?.soleSessionFreeGroup ?? null,
    evidenceOf(id) {
      const { sessions, pilots, runs, independentSessions } = setupOf(id) ?? nothing
      return { sessions, pilots, runs, independentSessions }
    },
  }
}
