import type { RunOutcome, Warning } from '../normalise/types.ts'

/** How many standard uncertainties apart repeats may lie. */
const COVERAGE = 3

/**
 * Warns of runs of one entry that disagree with the others of their kind.
 *
 *     |x_i − x̄_others| > 3·√(u_i² + u²(x̄_others)),  x̄ weighted by 1/u²; own uncertainties only
 *
 * @param outcomes the runs of one entry, normalised
 * @param pointer JSON pointer of their list
 * @returns one warning per run that disagrees
 * @source METHOD.md, section k (cross checks)
 */
export function repeatWarnings(outcomes: readonly RunOutcome[], pointer: string): Warning[] {
  const repeats = outcomes.map(repeatOf)
  const warnings: Warning[] = []
  repeats.forEach((one, index) => {
    if (one === null) return
    let weight = 0
    let sum = 0
    repeats.forEach((other, otherIndex) => {
      if (otherIndex === index || other?.group !== one.group) return
      const w = 1 / other.ownStandardUncertainty ** 2
      weight += w
      sum += w * other.logValue
    })
    if (weight === 0) return
    const difference = Math.abs(one.logValue - sum / weight)
    const allowed = COVERAGE * Math.sqrt(one.ownStandardUncertainty ** 2 + 1 / weight)
    if (difference <= allowed) return
    warnings.push({
      pointer: `${pointer}/${index}`,
      code: 'repeatsDisagree',
      detail: `This run differs from the others of its kind by ${Math.round(100 * (Math.exp(difference) - 1))} %, more than their uncertainties explain.`,
    })
  })
  return warnings
}

interface Repeat {
  /** Runs of one group repeat one another. */
  readonly group: string
  readonly logValue: number
  readonly ownStandardUncertainty: number
}

/** A run as a repeat of others; runs that say nothing of the set-up repeat what they say of the wing. */
function repeatOf({ evidence, normalized }: RunOutcome): Repeat | null {
  if (evidence !== null) return { group: evidence.quantity, ...evidence }
  const { metric, value, budget } = normalized
  const ofWing = metric === 'sinkRate' || (metric === 'levelSpeed' && normalized.atTrim === true)
  if (!ofWing) return null
  const own = budget.filter((line) => !line.sharedWithinSession)
  const ownU = Math.hypot(...own.map((line) => line.standardUncertainty))
  return { group: metric, logValue: Math.log(value), ownStandardUncertainty: ownU / value }
}
