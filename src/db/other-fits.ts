import { interestSentence, robustSentence } from '../contract/beside.ts'
import type { OtherFits } from '../contract/evidence.ts'
import type { ChosenFits } from './fit-choice.ts'
import type { LoadedFit } from './fit-store.ts'

const OTHERS = ['withoutInterested', 'robust'] as const

/** What the other fits of the evidence say; null: they are not made yet; absent: there are none. */
export type ByOthers<T> = Partial<Record<(typeof OTHERS)[number], T | null>>

/**
 * Puts to the other fits of the evidence what the fit that answers was asked.
 *
 * @param chosen the fits of the answer, one for each quantity it rests on
 * @param own what they say themselves
 * @param ask puts the question to other fits, in the same order
 */
export function askOthers<T>(
  chosen: readonly ChosenFits[],
  own: T,
  ask: (fits: readonly LoadedFit[]) => T,
): ByOthers<T> {
  const found: ByOthers<T> = {}
  for (const which of OTHERS) {
    const others = chosen.map((fits) => fits[which] ?? fits.fit)
    if (otherFitsOf(chosen) === 'pending') found[which] = null
    else if (chosen.every((fits) => fits[which] === null)) continue
    else found[which] = others.every(({ id }, i) => id === chosen[i]!.fit.id) ? own : ask(others)
  }
  return found
}

/** Pending while the other fits of some quantity are not made. */
export function otherFitsOf(chosen: readonly ChosenFits[]): OtherFits {
  return chosen.some(({ otherFits }) => otherFits === 'pending') ? 'pending' : 'made'
}

/** Fields of an answer that say what other fits find, and whether it differs. */
export interface BesideFields<T> {
  withoutInterested?: (T & { changes: boolean }) | null
  robust?: (T & { agrees: boolean }) | null
}

/** What other fits find, as fields of an answer; `differs`: it is not what the answer finds. */
export function besideFields<T extends object>(
  { withoutInterested: without, robust }: ByOthers<T>,
  differs: (other: T) => boolean,
): BesideFields<T> {
  const fields: BesideFields<T> = {}
  if (without !== undefined) {
    fields.withoutInterested = without && { ...without, changes: differs(without) }
  }
  if (robust !== undefined) fields.robust = robust && { ...robust, agrees: !differs(robust) }
  return fields
}

/** Sentences on what differs; `inWords`: a finding as part of a sentence. */
export function besideSentences<T>(
  { withoutInterested: without, robust }: ByOthers<T>,
  differs: (other: T) => boolean,
  inWords: (other: T) => string,
): string[] {
  return [
    ...(without && differs(without) ? [interestSentence(inWords(without))] : []),
    ...(robust && differs(robust) ? [robustSentence(inWords(robust))] : []),
  ]
}

/** An answer with what other fits find beside it, in fields and at the end of its sentence. */
export function withOthers<A extends { readonly sentence: string }, T extends object>(
  answer: A,
  found: ByOthers<T>,
  {
    differs,
    inWords,
  }: { readonly differs: (other: T) => boolean; readonly inWords: (other: T) => string },
): A & BesideFields<T> {
  const sentences = besideSentences(found, differs, inWords)
  return {
    ...answer,
    ...besideFields(found, differs),
    sentence: [answer.sentence, ...sentences].join(' '),
  }
}

/** A part of what other fits say. */
export function mapOthers<T, U>(found: ByOthers<T>, part: (other: T) => U): ByOthers<U> {
  const mapped: ByOthers<U> = {}
  for (const which of OTHERS) {
    const other = found[which]
    if (other !== undefined) mapped[which] = other === null ? null : part(other)
  }
  return mapped
}
