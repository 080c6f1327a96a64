import type { Candidate } from '../../core/comparison/compare.ts'
import {
  type CostOfDifference,
  type CostRate,
  costOfDifference,
  type PriceDifference,
  priceDifference,
} from '../../core/comparison/cost.ts'
import type { Verdict } from '../../core/comparison/verdict.ts'
import type { SetupFacts } from '../../db/catalogue-facts.ts'
import type { AskedQuestion } from './answers.ts'
import type { ComparedPair, Cost } from './schema.ts'

interface PricedPair {
  readonly a: SetupFacts
  readonly b: SetupFacts
  readonly verdict: Verdict
  /** What other fits say of the verdict. */
  readonly beside: Pick<ComparedPair, 'withoutInterested' | 'robust'>
}

/**
 * What the better of two costs for what it is better by; nothing where a price is not known, and no
 * figure per unit where the flights do not say which is better.
 */
export function costOf(question: AskedQuestion, pair: PricedPair): Pick<ComparedPair, 'cost'> {
  const { a, b, verdict } = pair
  const price = priceDifference(a.parts, b.parts)
  if (price === null) return {}
  const isDecided = verdict === 'aBetter' || verdict === 'bBetter'
  const rates = isDecided ? ratesOf(question, pair, price) : {}
  return {
    cost: {
      currency: price.currency,
      priceDifference: price.amount,
      asOf: price.asOf,
      ...Object.fromEntries(Object.entries(rates).map(([name, rate]) => [name, showRate(rate)])),
      sentence: [sentenceOf(pair, price, rates), ...hangsOn(pair)].join(' '),
    },
  }
}

function ratesOf(
  question: AskedQuestion,
  { a, b, verdict }: PricedPair,
  { amount, currency }: PriceDifference,
): CostOfDifference {
  const { fuel } = question
  const fuelPrice = fuel !== undefined && fuel.currency === currency ? fuel.pricePerL : null
  const pair =
    verdict === 'aBetter'
      ? { better: asked(a), worse: asked(b), extraPrice: amount }
      : { better: asked(b), worse: asked(a), extraPrice: -amount }
  return costOfDifference(question, pair, fuelPrice)
}

function asked({ setupId, equipment }: SetupFacts): Candidate {
  return { setupId, equipment }
}

function showRate(rate: CostRate): NonNullable<Cost['perNewton']> {
  if ('noFigure' in rate) return { value: null, interval95: null, noFigure: rate.noFigure }
  return { value: rate.value, interval95: [...rate.interval95] }
}

/** What a gain buys holds as far as the verdict does. */
function hangsOn({ beside: { withoutInterested, robust } }: PricedPair): string[] {
  return [
    ...(withoutInterested?.changes
      ? ['Without submissions by people with an interest this does not hold.']
      : []),
    ...(robust?.agrees === false
      ? ['Where results that do not fit the rest count less this does not hold.']
      : []),
  ]
}

/** What a rate is per, the unit behind its figures, and what there may be no figure of. */
const PHRASES: Readonly<
  Record<keyof CostOfDifference, readonly [of: string, unit: string, none: string]>
> = {
  perTenthMps: ['for each 0.1 m/s of climb', '', 'what 0.1 m/s of climb costs'],
  perNewton: ['for each newton', '', 'what a newton costs'],
  paybackH: [
    'of level flight until fuel has paid for it',
    ' h',
    'the hours until fuel has paid for it',
  ],
}

function sentenceOf(
  { a, b, verdict }: PricedPair,
  { amount, currency }: PriceDifference,
  rates: CostOfDifference,
): string {
  const [dearer, other] = amount >= 0 ? [a, b] : [b, a]
  const price =
    amount === 0
      ? `${a.name} and ${b.name} cost the same.`
      : `${dearer.name} costs ${currency} ${Math.abs(amount)} more than ${other.name}.`
  if (verdict === 'notResolved') {
    return `${price} The flights do not say what that buys.`
  }
  if (verdict === 'practicallyEqual') return `${price} It buys nothing that matters here.`
  const better = verdict === 'aBetter' ? a : b
  if (amount === 0 || dearer !== better) return `${price} The better one is not dearer.`
  const figures = Object.entries(rates) as [keyof CostOfDifference, CostRate][]
  return [price, ...figures.map(([name, rate]) => phraseOf(name, rate, currency))].join(' ')
}

function phraseOf(name: keyof CostOfDifference, rate: CostRate, currency: string): string {
  const [of, unit, none] = PHRASES[name]
  if ('noFigure' in rate) {
    return `There is no figure for ${none}: the gain may be next to nothing, so its interval has no end.`
  }
  const [low, high] = rate.interval95.map(shown)
  const before = unit === '' ? `${currency} ` : ''
  return `${before}${shown(rate.value)}${unit} ${of} (95 % interval ${low} to ${high}${unit}).`
}

/** Three digits are more than any of these figures is good for. */
function shown(value: number): string {
  return String(Number(value.toPrecision(3)))
}
