import { studentTQuantile } from '../distributions/student-t.ts'
import { fiellerSet } from '../uncertainty/fieller.ts'
import { type Candidate, type Question, usableReading } from './compare.ts'
import { METRIC_FACTS, type Metric } from './metric.ts'
import { pairEstimates, pairSpread } from './pair-spread.ts'
import type { LogDifference } from './verdict.ts'

/** A part of a setup and what it cost. */
export interface PricedPart {
  readonly id: string
  readonly price: {
    readonly amount: number
    readonly currency: string
    readonly asOf: string
  } | null
}

/** What one setup costs more than another. */
export interface PriceDifference {
  /** a less b [currency]. */
  readonly amount: number
  readonly currency: string
  /** Day of the oldest price that counts. */
  readonly asOf: string
}

/**
 * What setup a costs more than setup b. Parts that both have cancel and need no price.
 *
 * @param a parts of one setup
 * @param b parts of the other
 * @returns the difference [currency]; null where a part has no price, or currencies differ
 * @source derived: a sum over the parts that differ
 */
export function priceDifference(
  a: readonly PricedPart[],
  b: readonly PricedPart[],
): PriceDifference | null {
  const onlyIn = (own: readonly PricedPart[], other: readonly PricedPart[]) =>
    own.filter(({ id }) => other.every((part) => part.id !== id)).map(({ price }) => price)
  const [ofA, ofB] = [onlyIn(a, b), onlyIn(b, a)]
  const known = [...ofA, ...ofB].filter((price) => price !== null)
  const currencies = new Set(known.map(({ currency }) => currency))
  const [currency] = currencies
  const isComplete = known.length === ofA.length + ofB.length
  if (!isComplete || currency === undefined || currencies.size > 1) return null
  const sum = (prices: typeof ofA) => prices.reduce((total, price) => total + price!.amount, 0)
  const [asOf] = known.map((price) => price.asOf).sort()
  return { amount: sum(ofA) - sum(ofB), currency, asOf: asOf! }
}

/** What a gain costs, or why there is no figure. */
export type CostRate =
  | { readonly value: number; readonly interval95: readonly [number, number] }
  | { readonly noFigure: 'costsNoMore' | 'unbounded' }

/**
 * Money per unit of a gain, with its interval.
 *
 *     value = M/D;  95 % interval by Fieller's theorem, the price taken as exact
 *
 * @param price what the better one costs more M [currency]
 * @param gain by how much it is better D [unit of the gain], with standard error and degrees of freedom
 * @returns M/D [currency per unit] and interval; no figure where it costs no more, or where the gain
 *   may be nothing, so that no finite interval holds the ratio
 * @source E. C. Fieller, J. R. Stat. Soc. B 16 (1954) 175
 */
export function costRate(price: number, gain: LogDifference): CostRate {
  if (!(price > 0)) return { noFigure: 'costsNoMore' }
  const { estimate, standardError, degreesOfFreedom } = gain
  const set = fiellerSet(
    {
      numerator: price,
      denominator: estimate,
      numeratorVariance: 0,
      denominatorVariance: standardError ** 2,
      covariance: 0,
    },
    studentTQuantile(0.975, degreesOfFreedom),
  )
  if (set.kind !== 'interval' || !(estimate > 0)) return { noFigure: 'unbounded' }
  return { value: price / estimate, interval95: [set.low, set.high] }
}

/**
 * By how much one setup is better than another in a metric's own unit, whatever its direction.
 *
 *     D = ±(f_better − f_worse),   u(D)² = var(f'_better·β_better − f'_worse·β_worse)
 *
 * Setups that only shared parts link are read as the comparison reads them, see `pairEstimates`.
 *
 * @param question metric, conditions and fit
 * @param better the setup that is better
 * @param worse the other
 * @returns the gain [m/s, N, L/h or dB], above 0 where it is one, with standard error and degrees of
 *   freedom; null where one of the two has no reading or the scatter is not known
 * @source GUM (JCGM 100:2008) 5.2.2; the readings are those of `readMetric`
 */
export function gainOf(
  question: Question,
  better: Candidate,
  worse: Candidate,
): LogDifference | null {
  const { fit } = question
  const names = { a: better.setupId, b: worse.setupId }
  const tier = fit.tierOf(names.a, names.b)
  const [estimateA, estimateB] = pairEstimates(fit, tier, names)
  const a = usableReading(question, better, estimateA)
  const b = usableReading(question, worse, estimateB)
  if ('refusal' in a || 'refusal' in b) return null
  const slopes = { a: a.slope, b: b.slope }
  const { standardError, degreesOfFreedom } = pairSpread(fit, tier, names, slopes)
  if (!Number.isFinite(standardError)) return null
  const sign = METRIC_FACTS[question.metric].better === 'higher' ? 1 : -1
  return { estimate: sign * (a.value - b.value), standardError, degreesOfFreedom }
}

/** Climb rates are priced by steps of this size [m/s]: about what a pilot can tell. */
const CLIMB_STEP_MPS = 0.1

/** What a difference costs: by climb and thrust, or in hours of fuel. */
export interface CostOfDifference {
  /** Money per 0.1 m/s of climb. */
  readonly perTenthMps?: CostRate
  /** Money per newton. */
  readonly perNewton?: CostRate
  /** Hours of level flight until the fuel saved has paid for it. */
  readonly paybackH?: CostRate
}

/**
 * What the better of two setups costs for what it is better by, at the question's conditions.
 *
 * @param question metric, conditions and fit
 * @param pair the better and the worse setup, and what the better one costs more [currency]
 * @param fuelPricePerL price of fuel [currency/L], above 0, or null
 * @returns per 0.1 m/s and per N for a climb metric, per N for static thrust, hours for fuel flow with
 *   a price of fuel; nothing for other metrics
 * @source derived: see {@link costRate}
 */
export function costOfDifference(
  question: Question,
  pair: { readonly better: Candidate; readonly worse: Candidate; readonly extraPrice: number },
  fuelPricePerL: number | null,
): CostOfDifference {
  const { better, worse, extraPrice } = pair
  const rate = (metric: Metric, price: number) => {
    const gain = gainOf({ ...question, metric }, better, worse)
    return gain === null ? undefined : costRate(price, gain)
  }
  switch (question.metric) {
    case 'climbRate':
    case 'climbThrust':
      return present({
        perTenthMps: rate('climbRate', CLIMB_STEP_MPS * extraPrice),
        perNewton: rate('climbThrust', extraPrice),
      })
    case 'staticThrust':
      return present({ perNewton: rate('staticThrust', extraPrice) })
    case 'fuelFlow':
      return fuelPricePerL === null
        ? {}
        : present({ paybackH: rate('fuelFlow', extraPrice / fuelPricePerL) })
    default:
      return {}
  }
}

function present(rates: { readonly [K in keyof CostOfDifference]: CostRate | undefined }) {
  const given = Object.entries(rates).filter(([, rate]) => rate !== undefined)
  return Object.fromEntries(given) as CostOfDifference
}
