/** What the interface puts beside a finding: the same by other readings of the same tests. */
export interface Beside<Finding> {
  readonly withoutInterested?: (Finding & { readonly changes: boolean }) | null | undefined
  readonly robust?: (Finding & { readonly agrees: boolean }) | null | undefined
}

/** A finding by another reading of the same tests. */
export interface OtherReading {
  readonly label: string
  readonly about: string
  readonly words: string
  /** null while it is worked out. */
  readonly isSame: boolean | null
}

const WORKED_OUT = 'being worked out'

/** How a finding fares where other tests count, or count less; nothing where there are no such readings. */
export function otherReadings<Finding>(
  { withoutInterested, robust }: Beside<Finding>,
  wordsFor: (finding: Finding) => string,
): OtherReading[] {
  const lines: OtherReading[] = []
  if (withoutInterested !== undefined) {
    lines.push({
      label: 'Without people with an interest',
      about: 'Leaves out tests by those who sell, make or were given what they tested.',
      words: withoutInterested === null ? WORKED_OUT : wordsFor(withoutInterested),
      isSame: withoutInterested === null ? null : !withoutInterested.changes,
    })
  }
  if (robust !== undefined) {
    lines.push({
      label: 'Misfits count less',
      about: 'Results far from all others, such as a slip of the watch, weigh less.',
      words: robust === null ? WORKED_OUT : wordsFor(robust),
      isSame: robust === null ? null : robust.agrees,
    })
  }
  return lines
}

/** The same in a cell of a table: who says otherwise, and what. */
export function besideText(readings: readonly OtherReading[]): string {
  if (readings.length === 0) return '–'
  const parted = readings.filter(({ isSame }) => isSame === false)
  if (parted.length > 0) return parted.map(({ label, words }) => `${label}: ${words}`).join('; ')
  return readings.some(({ isSame }) => isSame === null) ? WORKED_OUT : 'the same'
}

/** In one sentence, for many findings at once; nothing while or where there is nothing to say. */
export function steadiness(
  findings: readonly (Beside<object> & { readonly name: string })[],
): string {
  const isPending = findings.some((one) => one.withoutInterested === null || one.robust === null)
  if (isPending) return 'Whether it hangs on which tests count is being worked out.'
  const known = findings.filter((one) => otherReadings<object>(one, () => '').length > 0)
  if (known.length === 0) return ''
  const parted = known.filter((one) =>
    otherReadings<object>(one, () => '').some(({ isSame }) => !isSame),
  )
  if (parted.length === 0) {
    return 'The same without people with an interest, and where misfits count less.'
  }
  return `It hangs on which tests count for: ${parted.map(({ name }) => name).join('; ')}.`
}
