import type { Fault } from '../csv/faults.ts'
import type { AlikeEntry } from '../ports.ts'
import type { RowWarning } from '../schema.ts'
import type { CheckedSession } from './check.ts'

/** Fewer runs of somebody else may be alike by chance: rounded readings of one evening. */
const RUNS_TO_KNOW_BY = 2

export interface AlikeFindings {
  /** What would count twice. */
  readonly faults: readonly Fault[]
  /** What may. */
  readonly warnings: readonly RowWarning[]
}

/**
 * What a notebook brings that stands somewhere already: refused where day, setup, mass, air and readings
 * are the same and either the runs are several or they are of the same account and pilot; told elsewhere.
 *
 * @param alike for each session, what is like it
 */
export function alikeFindings(
  sessions: readonly CheckedSession[],
  alike: readonly (readonly AlikeEntry[])[],
  accountId: string,
): AlikeFindings {
  const faults: Fault[] = []
  const warnings: RowWarning[] = []
  sessions.forEach((session, index) => {
    for (const { entryIndex, runs, isSame, earlier } of alike[index]!) {
      const place = { row: rowOfEntry(session, entryIndex), column: 'session' }
      const known = placeOf(earlier, { sessions, session, accountId })
      if (isSame && (known.isOwn || runs >= RUNS_TO_KNOW_BY)) {
        const detail = `Is the flight of ${known.where} once more: the same day, setup, mass, air and readings. It would count twice: ${known.wayOut}.`
        faults.push({ ...place, detail })
      } else {
        const detail = `Has the readings of ${known.where}, of the same day and setup. If it is the same flight, withdraw one of the two: it counts twice.`
        warnings.push({ ...place, code: 'perhapsCountedTwice', detail })
      }
    }
  })
  return { faults, warnings }
}

interface Around {
  readonly sessions: readonly CheckedSession[]
  readonly session: CheckedSession
  readonly accountId: string
}

/** Where the earlier flight stands, whether it is of the same account and pilot, and what to do. */
function placeOf(earlier: AlikeEntry['earlier'], { sessions, session, accountId }: Around) {
  if ('bodyIndex' in earlier) {
    const { rows, pilot } = sessions[earlier.bodyIndex]!
    return {
      where: `row ${Math.min(...rows)}`,
      isOwn: pilot === session.pilot,
      wayOut: 'leave it out, or put two runs of one evening into one session',
    }
  }
  const isOwn = earlier.accountId === accountId
  return {
    where: `submission ${earlier.submissionId}`,
    isOwn,
    wayOut: isOwn ? 'leave it out here, or withdraw that submission first' : 'leave it out here',
  }
}

/** The first row of a setup within a session; rows stand in the order of the body. */
function rowOfEntry({ rows, body }: CheckedSession, entryIndex: number): number {
  const { entries } = body as { readonly entries: readonly { readonly runs: readonly unknown[] }[] }
  const before = entries.slice(0, entryIndex).reduce((sum, { runs }) => sum + runs.length, 0)
  return Math.min(...rows.slice(before, before + entries[entryIndex]!.runs.length))
}
