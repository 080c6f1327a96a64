import {
  type ContrastResult,
  prepareContrasts,
  type SetupWeight,
  withKnownPart,
} from '../mixed/contrasts.ts'
import type { Decomposition } from '../mixed/decomposition.ts'
import {
  type Evidence,
  type EvidenceTier,
  evidenceTier,
  restsOnOneSession,
} from '../mixed/evidence.ts'
import type { NestedFit } from '../mixed/fit-result.ts'
import { type FitHeader, packFit, unpackFit } from '../mixed/serialise.ts'
import type { SystematicTerm } from '../mixed/systematic.ts'
import {
  type AdditiveModel,
  type AdditiveView,
  additiveViewOf,
  designOfParts,
  PART_KINDS,
  type SetupParts,
} from './additive-view.ts'
import type { FitAbout } from './fit-about.ts'
import { type FitView, SCATTER } from './fit-view.ts'
import type { JointSpread } from './joint-spread.ts'

/** A fit together with the evidence it rests on. */
export interface FitWithEvidence {
  readonly fit: NestedFit
  readonly evidence: Evidence
  /** What errors that reach beyond a session add to the covariance. */
  readonly terms: readonly SystematicTerm[]
  /** Sessions by people who sell, make or were given what they tested, per setup of the fit. */
  readonly interestedSessions: readonly number[]
  /** What the parts of the setups bring; absent where that is not known. */
  readonly additive?: AdditiveModel | undefined
}

/** The part of a stored fit that is JSON. */
export interface StoredFitHeader {
  readonly fit: FitHeader
  readonly setups: Evidence['setups']
  readonly spareSessions: number
  readonly interestedSessions: readonly number[]
  readonly terms: readonly Pick<SystematicTerm, 'cause' | 'reach'>[]
  readonly additive?: StoredAdditive | undefined
  /** Not needed to restore the fit; absent where it was stored without. */
  readonly about?: FitAbout | undefined
}

/** A model of parts without its weights. */
interface StoredAdditive extends Omit<Decomposition, 'weights'> {
  readonly parts: readonly SetupParts[]
}

/** A fit as it is stored: a JSON header and one block of numbers. */
export interface StoredFitParts {
  readonly header: StoredFitHeader
  readonly numbers: Float64Array
}

/**
 * Splits a fit and its evidence for storing: the numbers of the fit, then K × K counts of shared
 * sessions, one K × K covariance for each systematic term, and the p × K weights of parts if there are.
 *
 * @param whole fit, evidence and terms of the same layout, interested sessions in the order of the setups
 * @returns header and numbers; {@link restoreFit} gives the same back bit for bit
 * @source derived here
 */
export function storeFit(whole: FitWithEvidence): StoredFitParts {
  const { fit, evidence, terms, interestedSessions, additive } = whole
  const packed = packFit(fit)
  const parts = [
    packed.numbers,
    evidence.sharedSessions,
    ...terms.map((term) => term.covariance),
    additive?.decomposition.weights ?? new Float64Array(0),
  ]
  const numbers = new Float64Array(parts.reduce((length, part) => length + part.length, 0))
  let place = 0
  for (const part of parts) {
    numbers.set(part, place)
    place += part.length
  }
  const { setups, spareSessions } = evidence
  const named = terms.map(({ cause, reach }) => ({ cause, reach }))
  return {
    header: {
      ...{ fit: packed.header, setups, spareSessions, interestedSessions, terms: named },
      ...(additive === undefined ? {} : { additive: withoutWeights(additive) }),
    },
    numbers,
  }
}

function withoutWeights({ parts, decomposition }: AdditiveModel): StoredAdditive {
  const { weights: _, ...rest } = decomposition
  return { parts, ...rest }
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
  const square = setupIds.length ** 2
  const additive = restoreAdditive({ header, numbers })
  const weightCount = additive?.decomposition.weights.length ?? 0
  const end = numbers.length - weightCount - square * header.terms.length
  const split = end - square
  const fit = unpackFit({ header: header.fit, numbers: numbers.subarray(0, split) })
  const sharedSessions = Int32Array.from(numbers.subarray(split, end))
  const { setups, spareSessions, interestedSessions } = header
  const terms = header.terms.map((term, j) => ({
    ...term,
    covariance: numbers.slice(end + j * square, end + (j + 1) * square),
  }))
  return {
    fit,
    evidence: { setupIds, setups, sharedSessions, spareSessions },
    terms,
    interestedSessions,
    ...(additive === undefined ? {} : { additive }),
  }
}

/** The weights of parts are the last numbers. */
function restoreAdditive({ header, numbers }: StoredFitParts): AdditiveModel | undefined {
  if (header.additive === undefined) return undefined
  const { parts, ...rest } = header.additive
  const count = designOfParts(parts).kept.length * parts.length
  const weights = numbers.slice(numbers.length - count)
  return { parts, decomposition: { weights, ...rest } }
}

/**
 * A fit as comparisons ask it.
 *
 * @param whole fit and evidence
 * @returns the view; it keeps the fit and copies nothing
 * @source derived here
 */
export function viewOf({ fit, evidence, terms, additive: model }: FitWithEvidence): FitView {
  const index = new Map(fit.setups.map((id, k) => [id, k]))
  const K = fit.setups.length
  const contrasts = prepareContrasts(fit)
  const spread = (term: SystematicTerm, weights: readonly SetupWeight[]) =>
    quadraticForm(term.covariance, weights, { index, K })
  const groups = evidence.setups.map(({ soleSessionFreeGroup }) => soleSessionFreeGroup)
  const additive = model === undefined ? null : additiveViewOf(fit.setups, groups, model)
  let joint: JointSpread | null = null // formed at the first question
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
    contrast: (weights) => withTerms(contrasts(weights), terms, (term) => spread(term, weights)),
    covarianceOf(a, b) {
      const at = index.get(a)! + index.get(b)! * K
      return terms.reduce((sum, term) => sum + term.covariance[at]!, fit.covariance[at]!)
    },
    placeOf: (id) => index.get(id) ?? null,
    jointSpread() {
      if (!fit.standardErrorsKnown) return null
      joint ??= {
        setupCount: K,
        flights: fit.covariance,
        whole: withAll(fit.covariance, terms),
        slopes: fit.covarianceSlope,
        ofVariances: fit.inverseExpected,
      }
      return joint
    },
    tierOf: (a, b) => withParts(evidenceTier(evidence, a, b), additive, [a, b]),
    restsOnOneSession: (a, b) => restsOnOneSession(evidence, a, b),
    groupOf: (id) => setupOf(id)?.soleSessionFreeGroup ?? null,
    evidenceOf(id) {
      const { sessions, pilots, runs, independentSessions } = setupOf(id) ?? nothing
      return { sessions, pilots, runs, independentSessions }
    },
    additive,
  }
}

/** C + Σ S. */
function withAll(covariance: Float64Array, terms: readonly SystematicTerm[]): Float64Array {
  const whole = covariance.slice()
  for (const term of terms) {
    for (let i = 0; i < whole.length; i++) whole[i]! += term.covariance[i]!
  }
  return whole
}

/** Setups beyond the number of parts from which one may judge whether parts add up; editorial. */
const LEAST_SURPLUS = 3

/** Setups that no session links may be compared through their parts, if parts were seen to add up. */
function withParts(
  tier: EvidenceTier,
  additive: AdditiveView | null,
  [a, b]: readonly [string, string],
): EvidenceTier {
  if (tier !== 'betweenSessions' || additive === null) return tier
  if (additive.interactionDegreesOfFreedom < LEAST_SURPLUS) return tier
  return additive.separated(b, a, PART_KINDS) ? 'additive' : tier
}

/** l'Sl for sparse weights l, never below zero. */
function quadraticForm(
  covariance: Float64Array,
  weights: readonly SetupWeight[],
  { index, K }: { readonly index: ReadonlyMap<string, number>; readonly K: number },
): number {
  let sum = 0
  for (const a of weights) {
    for (const b of weights) {
      sum += a.weight * b.weight * covariance[index.get(a.setup)! + index.get(b.setup)! * K]!
    }
  }
  return Math.max(0, sum)
}

/**
 * Adds the systematic terms to a contrast. They are known, not estimated: see {@link withKnownPart}.
 */
function withTerms(
  fitted: ContrastResult,
  terms: readonly SystematicTerm[],
  varianceOf: (term: SystematicTerm) => number,
): ReturnType<FitView['contrast']> {
  const flights = fitted.standardError ** 2
  const added = new Map<string, number>()
  for (const term of terms) added.set(term.cause, (added.get(term.cause) ?? 0) + varianceOf(term))
  const variance = [...added.values()].reduce((sum, part) => sum + part, flights)
  return {
    estimate: fitted.estimate,
    standardError: Math.sqrt(variance),
    degreesOfFreedom: withKnownPart(fitted.degreesOfFreedom, flights, variance),
    parts: [
      { cause: SCATTER, variance: flights },
      ...[...added].map(([cause, part]) => ({ cause, variance: part })),
    ],
  }
}
