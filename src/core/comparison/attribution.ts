import type { SetupWeight } from '../mixed/contrasts.ts'
import { type AdditiveView, PART_KINDS, type PartKind } from './additive-view.ts'
import { answerForPair, type Candidate, type PairAnswer, type Question } from './compare.ts'
import { addBeyondParts, pairEstimates } from './pair-spread.ts'
import { readMetric } from './reading.ts'
import type { LogDifference } from './verdict.ts'

/** Why a line of an attribution has no number. */
export type LineRefusal = 'neverSeparated' | 'notTestable' | 'throughPartsOnly'

/** What one or several kinds of parts bring to a difference; or the rest. */
export type AttributionLine =
  | { readonly refusal: null; readonly difference: LogDifference }
  | { readonly refusal: LineRefusal }

/** A difference of two setups, to against from, taken apart. */
export interface Attribution {
  readonly total: Extract<PairAnswer, { refusal: null }>
  /** Same part in both: exactly zero. */
  readonly same: readonly PartKind[]
  readonly parts: Readonly<Record<PartKind, AttributionLine>>
  /** Kinds that always changed together: only their sum is known. */
  readonly together: { readonly kinds: readonly PartKind[]; readonly line: AttributionLine } | null
  /** What is left when the parts are taken off. */
  readonly unexplained: AttributionLine
}

/**
 * How much of the difference of two setups is powerplant, propeller and frame.
 *
 *     d = Σ d_part + d_unexplained,   d_part = s·w'β,   u²(d_part) = s²·(w'(C + S)w + τ² w'w) / s²
 *
 * w are the weights of the part's effect on the setup means, τ² the variance of setups about the sum of
 * their parts, s the slope of the metric between the two estimates. What follows from the equipment
 * itself at the same estimate (drive, propeller diameter) is counted with the part it belongs to, and
 * is not uncertain. Logarithms add up; per cents multiply.
 *
 * @param question metric, conditions and fit
 * @param from the setup that is left
 * @param to the setup that is taken
 * @returns the lines, or the refused pair; null where the fit holds no model of parts
 * @source GUM (JCGM 100:2008) 5.2.2; model of parts as in `mixed/decomposition.ts`
 */
export function attribute(
  question: Question,
  from: Candidate,
  to: Candidate,
): Attribution | Extract<PairAnswer, { refusal: object }> | null {
  const additive = question.fit.additive ?? null
  const partsFrom = additive?.partsOf(from.setupId) ?? null
  const partsTo = additive?.partsOf(to.setupId) ?? null
  const total = answerForPair(question, to, from)
  if (total.refusal !== null) return total
  if (additive === null || partsFrom === null || partsTo === null) return null
  const [end, start] = pairEstimates(question.fit, total.tier, { a: to.setupId, b: from.setupId })
  const estimates = { start, end }
  const slope = slopeBetween(question, to, estimates)
  const terms: Terms = { question, additive, from, to, start, slope }
  const same = PART_KINDS.filter((kind) => partsFrom[kind] === partsTo[kind])
  const changed = PART_KINDS.filter((kind) => !same.includes(kind))
  const open = changed.filter((kind) => !additive.separated(from.setupId, to.setupId, [kind]))
  const lineOf = (kind: PartKind): AttributionLine => {
    if (same.includes(kind)) return { refusal: null, difference: NOTHING }
    return open.includes(kind) ? { refusal: 'neverSeparated' } : lineFor(terms, [kind])
  }
  return {
    total,
    same,
    parts: {
      powerplant: lineOf('powerplant'),
      propeller: lineOf('propeller'),
      frame: lineOf('frame'),
    },
    together: open.length < 2 ? null : { kinds: open, line: jointLine(terms, open) },
    unexplained: unexplained(terms, total, changed),
  }
}

const NOTHING: LogDifference = { estimate: 0, standardError: 0, degreesOfFreedom: 1 }

interface Terms {
  readonly question: Question
  readonly additive: AdditiveView
  readonly from: Candidate
  readonly to: Candidate
  /** ln of the quantity with `from`. */
  readonly start: number
  /** Change of the metric's logarithm per change of the estimate, between the two. */
  readonly slope: number
}

function jointLine(terms: Terms, kinds: readonly PartKind[]): AttributionLine {
  const { additive, from, to } = terms
  return additive.separated(from.setupId, to.setupId, kinds)
    ? lineFor(terms, kinds)
    : { refusal: 'neverSeparated' }
}

function lineFor(terms: Terms, kinds: readonly PartKind[]): AttributionLine {
  const { additive, from, to, slope } = terms
  const weights = additive.weightsOf(from.setupId, to.setupId, kinds)
  const spread = withInteraction(terms, weights, sumOfSquares(weights))
  const difference = scaled(spread, slope)
  const fixed = kinds.reduce((sum, kind) => sum + ownEffect(terms, kind), 0)
  return { refusal: null, difference: { ...difference, estimate: difference.estimate + fixed } }
}

/** β_to − β_from less what all changed parts bring. */
function unexplained(
  terms: Terms,
  total: Extract<PairAnswer, { refusal: null }>,
  changed: readonly PartKind[],
): AttributionLine {
  const { additive, from, to, slope } = terms
  if (total.tier === 'additive') return { refusal: 'throughPartsOnly' }
  if (additive.interactionDegreesOfFreedom === 0) return { refusal: 'notTestable' }
  if (changed.length === 0) return { refusal: null, difference: NOTHING }
  const explained = additive.weightsOf(from.setupId, to.setupId, PART_KINDS)
  const weights = explained.map(({ setup, weight }) => ({
    setup,
    weight: (setup === to.setupId ? 1 : 0) - (setup === from.setupId ? 1 : 0) - weight,
  }))
  const spread = withInteraction(terms, weights, sumOfSquares(explained))
  return { refusal: null, difference: scaled(spread, slope) }
}

/** Adds the deviations of setups from the sum of their parts. */
function withInteraction(
  { question, additive }: Terms,
  weights: readonly SetupWeight[],
  squares: number,
): LogDifference {
  return addBeyondParts(question.fit.contrast(weights), {
    variance: additive.interactionVariance * squares,
    degreesOfFreedom: additive.interactionDegreesOfFreedom,
  })
}

function sumOfSquares(weights: readonly SetupWeight[]): number {
  return weights.reduce((sum, { weight }) => sum + weight ** 2, 0)
}

function scaled({ estimate, standardError, degreesOfFreedom }: LogDifference, slope: number) {
  return {
    estimate: slope * estimate,
    standardError: Math.abs(slope) * standardError,
    degreesOfFreedom,
  }
}

/** (ln f(β_to) − ln f(β_from)) / (β_to − β_from), both with the equipment of `to`; its limit where equal. */
function slopeBetween(
  { metric, state }: Question,
  { equipment }: Candidate,
  { start, end }: { readonly start: number; readonly end: number },
): number {
  const [low, high] = [start, end].map((x) => readMetric(metric, x, { equipment, state }))
  const step = end - start
  if (Math.abs(step) < 1e-9 || low!.logValue === null || high!.logValue === null) {
    return high!.elasticity ?? Number.NaN
  }
  return (high!.logValue - low!.logValue) / step
}

/** What the drive (powerplant) or the diameter (propeller) changes at one and the same estimate. */
function ownEffect({ question, from, to, start }: Terms, kind: PartKind): number {
  const { metric, state } = question
  const read = (drive: Candidate, propeller: Candidate) =>
    readMetric(metric, start, {
      equipment: {
        ...from.equipment,
        drive: drive.equipment.drive,
        propellerDiameterCm: propeller.equipment.propellerDiameterCm,
      },
      state,
    }).logValue ?? Number.NaN
  if (kind === 'propeller') return read(from, to) - read(from, from)
  return kind === 'powerplant' ? read(to, to) - read(from, to) : 0
}
