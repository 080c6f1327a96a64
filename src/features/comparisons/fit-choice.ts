import { ApiProblem } from '../../contract/problems.ts'
import { type FitVariant, PLAIN } from '../../core/comparison/fit-about.ts'
import { type MassClass, massClassOf } from '../../core/comparison/mass-classes.ts'
import type { Quantity } from '../../core/comparison/metric.ts'
import { REFERENCE } from '../../core/normalise/reference.ts'
import type { FitStore, LoadedFit } from '../../db/fit-store.ts'

/** What a query says about the evidence it wants. */
export interface EvidenceChoice {
  readonly fitId?: string | undefined
  readonly excludeInterested: boolean
  readonly evidence: 'all' | 'class'
  readonly massClass?: MassClass | undefined
  readonly allUpMassKg?: number | undefined
}

export interface FitSources {
  readonly fits: FitStore
  /** Id of the fit of a part of the evidence, made when it is first asked for. */
  classFit(quantity: Quantity, variant: FitVariant): Promise<string>
}

/** The fit that is asked, and others of the same evidence for what is said beside it. */
export interface ChosenFits {
  readonly fit: LoadedFit
  /** Without people with an interest; the fit itself where there are none. Null: not known. */
  readonly withoutInterested: LoadedFit | null
  readonly robust: LoadedFit | null
}

/**
 * Picks the fit for a query: an earlier one by its id, all evidence or that of the mass class, with or
 * without people with an interest.
 *
 * @throws {ApiProblem} not-ready before the first fit, not-found where there is no such fit
 */
export async function chooseFits(
  sources: FitSources,
  quantity: Quantity,
  choice: EvidenceChoice,
): Promise<ChosenFits> {
  const whole = await sources.fits.load(quantity, await idOf(sources, quantity, choice))
  const without = await sibling(sources, whole, 'withoutInterested')
  if (choice.excludeInterested && !whole.variant.excludeInterested) {
    if (without === null) {
      throw new ApiProblem('not-found', {
        detail: `Fit ${whole.id} has no counterpart without people with an interest.`,
      })
    }
    return {
      fit: without,
      withoutInterested: without,
      robust: await sibling(sources, without, 'robust'),
    }
  }
  return { fit: whole, withoutInterested: without, robust: await sibling(sources, whole, 'robust') }
}

async function idOf(
  { classFit, fits }: FitSources,
  quantity: Quantity,
  { fitId, evidence, massClass, allUpMassKg }: EvidenceChoice,
): Promise<string | undefined> {
  if (evidence === 'all') return fitId
  const wanted = massClass ?? massClassOf(allUpMassKg ?? REFERENCE.allUpMassKg)
  if (fitId === undefined) return classFit(quantity, { ...PLAIN, massClass: wanted })
  const { variant } = await fits.load(quantity, fitId)
  if (variant.massClass === wanted) return fitId
  throw new ApiProblem('not-found', {
    detail: `Fit ${fitId} does not rest on the class ${wanted}.`,
  })
}

async function sibling(
  { fits }: FitSources,
  fit: LoadedFit,
  which: keyof LoadedFit['siblings'],
): Promise<LoadedFit | null> {
  const id = fit.siblings[which]
  if (id === null) return null
  return id === fit.id ? fit : fits.find(id)
}
