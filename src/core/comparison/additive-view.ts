import type { RowSpace } from '../linalg/row-space.ts'
import {
  columnDifference,
  levelDifference,
  type MeanDesign,
  withinSessionRowSpace,
} from '../mixed/attribution.ts'
import type { SetupWeight } from '../mixed/contrasts.ts'
import type { Decomposition } from '../mixed/decomposition.ts'
import { buildMeanDesign } from '../mixed/design/mean-design.ts'

/** The parts a setup's result is taken apart into. */
export const PART_KINDS = ['powerplant', 'propeller', 'frame'] as const

export type PartKind = (typeof PART_KINDS)[number]

/** Ids of the parts of one setup. */
export type SetupParts = Readonly<Record<PartKind, string>>

/** Parts of the setups of a fit, and what they bring. */
export interface AdditiveModel {
  /** In the order of the setups of the fit. */
  readonly parts: readonly SetupParts[]
  readonly decomposition: Decomposition
}

/** What an attribution asks of a fit. */
export interface AdditiveView {
  /** Null where the setup has no evidence. */
  partsOf(setupId: string): SetupParts | null
  /**
   * Whether sessions have told the differences of these kinds of parts, taken together, from everything
   * else; also if no single session is left out.
   */
  separated(from: string, to: string, kinds: readonly PartKind[]): boolean
  /** The difference that these kinds of parts make, to less from, as a weighted sum of setup means. */
  weightsOf(from: string, to: string, kinds: readonly PartKind[]): readonly SetupWeight[]
  /** Variance of setups about the sum of their parts; 0 where none was detected. */
  readonly interactionVariance: number
  /** 0: as many parts as setups, nothing is left to see whether parts add up. */
  readonly interactionDegreesOfFreedom: number
}

/**
 * The structure of the setup means that parts give.
 *
 * @param parts of each setup
 * @returns design with the factors powerplant, propeller and frame
 * @source common practice (additive model)
 */
export function designOfParts(parts: readonly SetupParts[]): MeanDesign {
  return buildMeanDesign(
    parts.map(({ powerplant, propeller, frame }) => ({
      factors: { powerplant, propeller, frame },
    })),
  )
}

/**
 * The additive model as attributions ask it.
 *
 * @param setupIds setups of the fit
 * @param groups group of each setup that stays linked whichever single session is taken away
 * @param model parts and decomposition of the same setups
 * @returns the view
 * @source derived; estimability by the row space of differences within groups
 */
export function additiveViewOf(
  setupIds: readonly string[],
  groups: readonly number[],
  { parts, decomposition }: AdditiveModel,
): AdditiveView {
  const index = new Map(setupIds.map((id, k) => [id, k]))
  const design = designOfParts(parts)
  let space: RowSpace | null = null // formed at the first question
  const difference = (from: string, to: string, kinds: readonly PartKind[]) =>
    differenceOf(design, parts, { from: index.get(from)!, to: index.get(to)!, kinds })
  return {
    partsOf(setupId) {
      const k = index.get(setupId)
      return k === undefined ? null : parts[k]!
    },
    separated(from, to, kinds) {
      if (!index.has(from) || !index.has(to)) return false
      space ??= withinSessionRowSpace(design, groups)
      return space.contains(difference(from, to, kinds))
    },
    weightsOf(from, to, kinds) {
      const l = difference(from, to, kinds)
      const { weights } = decomposition
      const p = design.kept.length
      return setupIds.map((setup, k) => ({
        setup,
        weight: design.kept.reduce((sum, column, a) => sum + l[column]! * weights[a + k * p]!, 0),
      }))
    },
    interactionVariance: decomposition.interactionVariance,
    interactionDegreesOfFreedom: decomposition.degreesOfFreedom,
  }
}

function differenceOf(
  design: MeanDesign,
  parts: readonly SetupParts[],
  { from, to, kinds }: { from: number; to: number; kinds: readonly PartKind[] },
): Float64Array {
  if (kinds.length === PART_KINDS.length) return columnDifference(design, to, from)
  const total = new Float64Array(design.columns.length)
  for (const kind of kinds) {
    const levels = { a: parts[to]![kind], b: parts[from]![kind] }
    const one = levelDifference(design, kind, levels)
    for (let j = 0; j < total.length; j++) total[j]! += one[j]!
  }
  return total
}
