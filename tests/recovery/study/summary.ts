import type { StudiedFit, StudiedPair } from './pairs.ts'

/** A proportion or mean over communities, with the standard error that their scatter gives it. */
export interface Figure {
  readonly mean: number
  readonly standardError: number
}

/** What the communities of one size say about one metric. */
export interface Summary {
  /** Runs that the fit of a community rests on, on average. */
  readonly runs: number
  readonly pairs: number
  readonly refused: number
  readonly unconverged: number
  /** Share of the 95 % intervals that hold the truth: all, differences below 10 %, above. */
  readonly coverage: Figure
  readonly coverageSmall: Figure
  readonly coverageLarge: Figure
  /** Mean full width of the intervals of the logarithm [1]: all, small, large. */
  readonly width: number
  readonly widthSmall: number
  readonly widthLarge: number
  /** Root mean square error of ln(a/b): of the service and of raw means. */
  readonly rmse: number
  readonly rmseRaw: number
  /** Error of the service over that of raw means [1]. */
  readonly ratio: Figure
  /** Root mean square of error over standard error [1]; about 1 where the errors are told rightly. */
  readonly rmsScore: number
  /** Slope of the error on the truth per community [1]: how far large differences are stretched. */
  readonly stretch: Figure
  /** Standard deviation of that slope over communities [1]. */
  readonly stretchSd: number
}

/** Differences below this are small [1]: 10 %. */
const SMALL = Math.log(1.1)

/** Sums up one metric over communities of one size. */
export function summarise(fits: readonly StudiedFit[]): Summary {
  const pairs = fits.flatMap((fit) => fit.pairs)
  const isSmall = ({ truth }: StudiedPair) => Math.abs(truth) < SMALL
  const isLarge = (pair: StudiedPair) => !isSmall(pair)
  const coverageOf = (keep: (pair: StudiedPair) => boolean) =>
    clusterMean(fits.map((fit) => fit.pairs.filter(keep).map((pair) => (isCovered(pair) ? 1 : 0))))
  const widthOf = (keep: (pair: StudiedPair) => boolean) =>
    mean(pairs.filter(keep).map(({ reach }) => 2 * reach))
  const slopes = fits.filter((fit) => fit.pairs.length > 1).map((fit) => stretchOf(fit.pairs))
  return {
    runs: mean(fits.map(({ runs }) => runs)),
    pairs: pairs.length,
    refused: fits.reduce((sum, fit) => sum + fit.refused, 0),
    unconverged: fits.filter((fit) => !fit.converged).length,
    coverage: coverageOf(() => true),
    coverageSmall: coverageOf(isSmall),
    coverageLarge: coverageOf(isLarge),
    width: widthOf(() => true),
    widthSmall: widthOf(isSmall),
    widthLarge: widthOf(isLarge),
    rmse: rms(pairs.map(({ estimate, truth }) => estimate - truth)),
    rmseRaw: rms(pairs.map(({ raw, truth }) => raw - truth)),
    ratio: ratioOf(fits),
    rmsScore: rms(pairs.map((pair) => (pair.estimate - pair.truth) / pair.standardError)),
    stretch: clusterMean(slopes.map((slope) => [slope])),
    stretchSd: Math.sqrt(mean(slopes.map((slope) => (slope - mean(slopes)) ** 2))),
  }
}

/** Whether the 95 % interval holds the truth. */
export function isCovered({ truth, estimate, reach }: StudiedPair): boolean {
  return Math.abs(estimate - truth) <= reach
}

/**
 * Ratio of the root mean square errors, its standard error from the communities as clusters.
 *
 *     q = √(Σ s_i / Σ r_i),   u(q) = q/2 · √( Σ (s_i/Σs − r_i/Σr)² · n/(n − 1) )
 */
function ratioOf(fits: readonly StudiedFit[]): Figure {
  const squares = fits.map(({ pairs }) => ({
    own: pairs.reduce((sum, { estimate, truth }) => sum + (estimate - truth) ** 2, 0),
    raw: pairs.reduce((sum, { raw, truth }) => sum + (raw - truth) ** 2, 0),
  }))
  const own = squares.reduce((sum, square) => sum + square.own, 0)
  const raw = squares.reduce((sum, square) => sum + square.raw, 0)
  const scatter = squares.reduce((sum, s) => sum + (s.own / own - s.raw / raw) ** 2, 0)
  const correction = squares.length / Math.max(1, squares.length - 1)
  const ratio = Math.sqrt(own / raw)
  return { mean: ratio, standardError: (ratio / 2) * Math.sqrt(correction * scatter) }
}

/** Least-squares slope through zero of error on truth. */
function stretchOf(pairs: readonly StudiedPair[]): number {
  let product = 0
  let square = 0
  for (const { truth, estimate } of pairs) {
    product += (estimate - truth) * truth
    square += truth ** 2
  }
  return product / square
}

/**
 * Mean over all values, its standard error from the communities as clusters: pairs of one community
 * share flights, so only whole communities are independent.
 */
function clusterMean(clusters: readonly (readonly number[])[]): Figure {
  const count = clusters.reduce((sum, { length }) => sum + length, 0)
  const total = clusters.reduce((sum, values) => sum + values.reduce((a, b) => a + b, 0), 0)
  const centre = total / count
  const squares = clusters.reduce((sum, values) => {
    const deviation = values.reduce((a, value) => a + value - centre, 0)
    return sum + deviation ** 2
  }, 0)
  const correction = clusters.length / Math.max(1, clusters.length - 1)
  return { mean: centre, standardError: Math.sqrt(correction * squares) / count }
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length
}

function rms(values: readonly number[]): number {
  return Math.sqrt(mean(values.map((value) => value ** 2)))
}
