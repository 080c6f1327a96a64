import { probabilityText } from '../../core/comparison/probability-text.ts'
import type { FrontVerdict } from './schema.ts'

/** Whether a setup is on the front, as part of a sentence. */
export const IN_WORDS: Readonly<Record<FrontVerdict, string>> = {
  onFront: 'no other one beats it in both',
  beaten: 'another one climbs at least as well on less fuel',
  open: 'it is open whether another one beats it in both',
  leftOut: 'too little is known of it',
}

/** How sure the front has to be, either way [1]; editorial. */
const SURE = 0.95

/** What a probability of being on the front amounts to; null: it does not take part. */
export function verdictOf(probabilityOnFront: number | null): FrontVerdict {
  if (probabilityOnFront === null) return 'leftOut'
  if (probabilityOnFront >= SURE) return 'onFront'
  return probabilityOnFront <= 1 - SURE ? 'beaten' : 'open'
}

/** How sure the front is, in plain words. */
export function sentenceFor(name: string, probability: number): string {
  const share = probabilityText(probability)
  const verdict = verdictOf(probability)
  if (verdict === 'onFront') return `No other one beats ${name} in both (${share} sure).`
  if (verdict === 'beaten')
    return `Another one climbs at least as well as ${name} on less fuel; the chance that none does is ${share}.`
  return `Whether another one beats ${name} in both is open; the chance that none does is ${share}.`
}
