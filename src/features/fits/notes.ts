import type { FitReport } from '../../core/comparison/fit-report.ts'
import { COMPONENTS, type Component } from '../../core/mixed/components.ts'
import type { NestedFit } from '../../core/mixed/fit-result.ts'

/** What varies, as people say it. */
const VARIES: Readonly<Record<Component, string>> = {
  pilot: 'Differences between pilots',
  session: 'Differences between days of one pilot',
  cell: 'What one setup does on one day beyond pilot and day',
  run: 'Scatter from run to run beyond its known uncertainty',
}

const WHY: Readonly<Record<Component, string>> = {
  pilot: 'each setup was flown by one pilot only',
  session: 'no pilot flew the same setup in several sessions that others link',
  cell: 'no two sessions repeat the same comparison',
  run: 'every setup was flown once per session',
}

const ONTO: Readonly<Record<Component, string>> = {
  pilot: 'the differences between pilots',
  session: 'the differences between days',
  cell: 'what a setup does on a day',
  run: 'the scatter from run to run',
}

const UNCOUNTED = 'it is taken as nothing, so intervals may be too narrow where it exists'
const ONE_PILOT =
  'all runs are of one pilot, so what the setups do cannot be told from what this pilot does'
const ONE_SESSION =
  'all runs are of one session, so what the setups do cannot be told from what that day did'

/** Probability below which declared uncertainty counts as larger than what repeated runs show. */
const TOO_SMALL = 0.01

/**
 * What a fit could not tell and what to beware of, in plain sentences.
 *
 * @param fit the fit
 * @param report what stands out in it; null where it has none
 */
export function notesOn(fit: NestedFit, report: FitReport | null): string[] {
  if (fit.counts.runs === 0) return ['No run counts yet.']
  const notes = fit.standardErrorsKnown
    ? []
    : [
        'The runs do not show how much results scatter, so no uncertainty can be given and no comparison is made.',
      ]
  if (!fit.converged)
    notes.push('The search for the variances did not settle; figures are provisional.')
  if (fit.keptStart) {
    notes.push(
      'The variances are those of an earlier fit: all flights together would move them by less than a tenth of their standard error.',
    )
  }
  notes.push(...COMPONENTS.flatMap((component) => noteOf(fit, component)))
  return report === null ? notes : [...notes, ...trapsIn(report)]
}

function noteOf(fit: NestedFit, component: Component): string[] {
  const { status, mergedInto, separability } = fit
  if (status[component] === 'notDetected') {
    return [
      `${VARIES[component]}: not detected. That is not the same as none: these flights are too few to show it.`,
    ]
  }
  if (status[component] !== 'notSeparable') return []
  const carrier = mergedInto[component]
  const where = carrier === null ? UNCOUNTED : `it is counted with ${ONTO[carrier]}`
  const noRepeats = carrier === 'run' && separability.run === 0
  const why = onlyOne(component, fit.counts) ?? WHY[noRepeats ? 'run' : component]
  return [`${VARIES[component]}: not estimated, since ${why}; ${where}.`]
}

/** The plainest reason: there is one pilot, or one session, and nothing to tell it from. */
function onlyOne(
  component: Component,
  { pilots, sessions }: Pick<NestedFit['counts'], 'pilots' | 'sessions'>,
): string | null {
  if (component === 'pilot' && pilots === 1) return ONE_PILOT
  return component === 'session' && sessions === 1 ? ONE_SESSION : null
}

function trapsIn({
  identicalCells,
  scatter,
  flaggedSessions,
  consistency,
  mass,
}: FitReport): string[] {
  const notes: string[] = []
  if (identicalCells > 0) {
    notes.push(
      `${times(identicalCells, 'setup')} within a session with all runs the same number: copied, or read to too few digits; they look more repeatable than they are.`,
    )
  }
  if (scatter !== null && scatter.pTooSmall < TOO_SMALL) {
    notes.push(
      `Repeated runs scatter less than their declared uncertainty says (variance ratio ${scatter.ratio.toFixed(2)}): the declared values are too large, and intervals wider than they need be.`,
    )
  }
  if (flaggedSessions > 0) {
    notes.push(
      flaggedSessions === 1
        ? 'One session does not fit the rest; it still counts, and is to be looked at.'
        : `${flaggedSessions} sessions do not fit the rest; they still count, and are to be looked at.`,
    )
  }
  if ((consistency.designs?.pValue ?? 1) < 0.05) {
    notes.push('Sets of setups flown together contradict one another by more than chance.')
  }
  if ((mass?.pValue ?? 1) < 0.05) {
    notes.push('Some setups do better for the heavy than for the light, or the other way round.')
  }
  return notes
}

function times(count: number, noun: string): string {
  return `${count} ${noun}${count === 1 ? '' : 's'}`
}
