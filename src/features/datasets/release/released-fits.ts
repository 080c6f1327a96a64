import { type FitVariant, PLAIN } from '../../../core/comparison/fit-about.ts'
import { MASS_CLASSES, type MassClass } from '../../../core/comparison/mass-classes.ts'
import type { Quantity } from '../../../core/comparison/metric.ts'
import {
  type FitWithEvidence,
  restoreFit,
  type StoredFitHeader,
} from '../../../core/comparison/stored-fit.ts'

/** A fit of the snapshot's evidence, as the fits feature gives it. */
export interface SnapshotFit {
  readonly id: string
  readonly runs: number
  readonly converged: boolean
  readonly header: StoredFitHeader
  readonly numbers: Uint8Array
}

/**
 * What aggregates may rest on: all runs, those of the weight class, those of people without an interest,
 * or all where what does not fit counts less.
 */
export const AGGREGATE_VARIANTS = ['all', 'class', 'withoutInterested', 'robust'] as const

export type AggregateVariant = (typeof AGGREGATE_VARIANTS)[number]

interface ReleasedVariant {
  readonly name: AggregateVariant
  /** The weight class it is for; null: every one. */
  readonly massClass: MassClass | null
  readonly fit: FitVariant
}

const classes = Object.keys(MASS_CLASSES) as MassClass[]

/** The fits a release makes of each quantity; the first is that of all runs. */
export const RELEASED_VARIANTS: readonly ReleasedVariant[] = [
  { name: 'all', massClass: null, fit: PLAIN },
  ...classes.map((massClass): ReleasedVariant => {
    return { name: 'class', massClass, fit: { ...PLAIN, massClass } }
  }),
  { name: 'withoutInterested', massClass: null, fit: { ...PLAIN, excludeInterested: true } },
  { name: 'robust', massClass: null, fit: { ...PLAIN, robust: true } },
]

/** A fit of part of the evidence. */
export interface VariantFit {
  readonly name: AggregateVariant
  readonly massClass: MassClass | null
  readonly whole: FitWithEvidence
}

/** The fits of a quantity in the release, unpacked. */
export interface ReleasedFit {
  readonly id: string
  readonly quantity: Quantity
  readonly runs: number
  readonly whole: FitWithEvidence
  /** That fit and those of parts of its evidence. */
  readonly variants: readonly VariantFit[]
}

/** @param others in the order of {@link RELEASED_VARIANTS}, without the first */
export function unpackFits(
  quantity: Quantity,
  plain: SnapshotFit,
  others: readonly (SnapshotFit | null)[],
): ReleasedFit {
  const variants = [plain, ...others].flatMap((fit, v) => {
    const { name, massClass } = RELEASED_VARIANTS[v]!
    return fit === null ? [] : [{ name, massClass, whole: unpack(fit) }]
  })
  return { id: plain.id, quantity, runs: plain.runs, whole: variants[0]!.whole, variants }
}

function unpack({ header, numbers }: SnapshotFit): FitWithEvidence {
  const bytes = new Uint8Array(numbers) // a copy that begins at 0, as doubles want it
  return restoreFit({ header, numbers: new Float64Array(bytes.buffer) })
}
