import type { KnownSession } from './inputs/known.ts'
import { type MeasuredFigure, pooledFigure } from './inputs/own-figure.ts'
import { speedShownBy } from './level-speed.ts'
import { withOwnGlide, withOwnTrim } from './own-wing.ts'
import type { PreparedRun } from './prepare.ts'
import { glideShownBy } from './sink.ts'
import type { Run } from './types.ts'

/** Where a run stands in its submission. */
export interface Place {
  readonly entryIndex: number
  readonly runIndex: number
}

/** An entry whose runs are worked out; a run is null where that failed. */
export interface WorkedEntry {
  /** The session as the climbs and burns of the entry know it. */
  readonly known: KnownSession
  readonly runs: readonly (PreparedRun | null)[]
}

/** What is worked out together: its kinds, and what it shows of the wing to those that come after. */
interface Pass {
  readonly takes: (run: Run) => boolean
  readonly shows: (prepared: PreparedRun) => MeasuredFigure | null
  readonly better: typeof withOwnTrim
}

/** Level legs give the trim speed that the glide ratio of a sink run needs; both serve all other runs. */
const PASSES: readonly Pass[] = [
  {
    takes: ({ kind }) => kind === 'levelSpeed',
    shows: (one) =>
      one.kind === 'levelSpeed' && one.speed.atTrim ? speedShownBy(one.speed) : null,
    better: withOwnTrim,
  },
  {
    takes: ({ kind }) => kind === 'sink',
    shows: (one) => (one.kind === 'sink' ? glideShownBy(one.sink) : null),
    better: withOwnGlide,
  },
]

/**
 * Works out the runs of a session, those first that show something of the wing: what they show takes
 * the place of what was given or assumed, pooled over the session, with the errors in common.
 *
 * @param entries per entry its runs, and the session with its gaps filled
 * @param prepare works out one run; null where it can't
 * @returns the entries in their order, all runs in their places
 * @source METHOD.md, sections d and g
 */
export function workOutSession(
  entries: readonly { readonly known: KnownSession; readonly runs: readonly Run[] }[],
  prepare: (known: KnownSession, run: Run, at: Place) => PreparedRun | null,
): WorkedEntry[] {
  let knowns = entries.map(({ known }) => known)
  const worked = entries.map(({ runs }) => new Array<PreparedRun | null>(runs.length).fill(null))
  const workOut = (takes: (run: Run) => boolean) => {
    entries.forEach(({ runs }, entryIndex) => {
      runs.forEach((run, runIndex) => {
        if (!takes(run)) return
        worked[entryIndex]![runIndex] = prepare(knowns[entryIndex]!, run, { entryIndex, runIndex })
      })
    })
  }
  for (const { takes, shows, better } of PASSES) {
    workOut(takes)
    const shown = worked.flat().map((one) => (one === null ? null : shows(one)))
    const figures = shown.filter((figure) => figure !== null)
    if (figures.length > 0) {
      const pooled = pooledFigure(figures)
      knowns = knowns.map((known) => better(known, pooled))
    }
  }
  workOut((run) => !PASSES.some(({ takes }) => takes(run)))
  return worked.map((runs, index) => ({ known: knowns[index]!, runs }))
}
