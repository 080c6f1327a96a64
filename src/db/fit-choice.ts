import type { OtherFits } from '../contract/evidence.ts'
import { ApiProblem } from '../contract/problems.ts'
import { type FitSiblings, type FitVariant, PLAIN } from '../core/comparison/fit-about.ts'
import { type MassClass, massClassOf } from '../core/comparison/mass-classes.ts'
import type { Quantity } from '../core/comparison/metric.ts'
import { REFERENCE } from '../core/normalise/reference.ts'
import type { FitStore, LoadedFit } from './fit-store.ts'

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
  partFit(quantity: Quantity, variant: FitVariant): Promise<string>
}

/** The fit that is asked, and others of the same evidence for what is said beside it. */
export interface ChosenFits {
  readonly fit: LoadedFit
  /** Pending: the others are not made yet. */
  readonly otherFits: OtherFits
  /** Without people with an interest; the fit itself where there are none. Null: not known. */
  readonly withoutInterested: LoadedFit | null
  readonly robust: LoadedFit | null
}

/**
 * Picks the fit for a query: an earlier one by its id, all evidence or that of the mass class, with or
 * without people with an interest.
 *
 * @throws {ApiProblem} not-ready before the first fit, and where the counterpart of an earlier fit is
 *   not made yet; not-found where there is no such fit
 */
export async function chooseFits(
  sources: FitSources,
  quantity: Quantity,
  choice: EvidenceChoice,
): Promise<ChosenFits> {
  const whole = await sources.fits.load(quantity, await idOf(sources, quantity, choice))
  const isAsked = !choice.excludeInterested || whole.variant.excludeInterested
  return withOthers(sources, isAsked ? whole : await counterpart(sources, whole, choice))
}

async function withOthers(sources: FitSources, fit: LoadedFit): Promise<ChosenFits> {
  return {
    fit,
    otherFits: fit.siblings === null ? 'pending' : 'made',
    withoutInterested: await sibling(sources, fit, 'withoutInterested'),
    robust: await sibling(sources, fit, 'robust'),
  }
}

/** The same evidence without people with an interest; of the evidence of now it is made where it is missing. */
async function counterpart(
  sources: FitSources,
  whole: LoadedFit,
  { fitId }: EvidenceChoice,
): Promise<LoadedFit> {
  const { id, quantity, siblings, variant } = whole
  if (siblings === null && fitId === undefined) {
    const made = await sources.partFit(quantity, { ...variant, excludeInterested: true })
    return sources.fits.load(quantity, made)
  }
  if (siblings === null) {
    const detail = `What stands beside fit ${id} is not made yet.`
    throw new ApiProblem('not-ready', { detail })
  }
  const without = await sibling(sources, whole, 'withoutInterested')
  if (without !== null) return without
  const detail = `Fit ${id} has no counterpart without people with an interest.`
  throw new ApiProblem('not-found', { detail })
}

async function idOf(
  { partFit, fits }: FitSources,
  quantity: Quantity,
  { fitId, evidence, massClass, allUpMassKg }: EvidenceChoice,
): Promise<string | undefined> {
  if (evidence === 'all') return fitId
  const wanted = massClass ?? massClassOf(allUpMassKg ?? REFERENCE.allUpMassKg)
  if (fitId === undefined) return partFit(quantity, { ...PLAIN, massClass: wanted })
  const { variant } = await fits.load(quantity, fitId)
  if (variant.massClass === wanted) return fitId
  throw new ApiProblem('not-found', {
    detail: `Fit ${fitId} does not rest on the class ${wanted}.`,
  })
}

async function sibling(
  { fits }: FitSources,
  fit: LoadedFit,
  which: keyof FitSiblings,
): Promise<LoadedFit | null> {
  const id = fit.siblings?.[which] ?? null
  if (id === null) return null
  return id === fit.id ? fit : fits.find(id)
}
