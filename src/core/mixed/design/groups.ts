/** Codes of every run, before sorting. */
export interface RunCodes {
  readonly setup: Int32Array
  readonly session: Int32Array
  readonly pilot: Int32Array
}

/** Where each group starts in the next finer level; every array ends with the total. */
export interface Groups {
  readonly runCount: number
  readonly cellCount: number
  readonly sessionCount: number
  readonly pilotCount: number
  readonly setupCount: number
  /** First run of each cell, cellCount + 1 entries. */
  readonly cellStart: Int32Array
  /** First cell of each session, sessionCount + 1 entries. */
  readonly sessionStart: Int32Array
  /** First session of each pilot, pilotCount + 1 entries. */
  readonly pilotStart: Int32Array
  /** Setup of each cell; ascending and distinct within a session. */
  readonly cellSetup: Int32Array
  /** First entry of each pilot in pilotSetup, pilotCount + 1 entries. */
  readonly pilotSetupStart: Int32Array
  /** Setups each pilot has flown, ascending. */
  readonly pilotSetup: Int32Array
  /** Place of each cell's setup in pilotSetup, counted from the start of that array. */
  readonly cellSlot: Int32Array
}

/**
 * Finds cells, sessions and pilots in runs sorted by pilot, session and setup.
 *
 * @param order sorted run numbers
 * @param codes of the runs, 0 upward without gaps
 * @param setupCount number of setups
 * @returns the boundaries of all groups, O(N)
 * @source common practice
 */
export function groupRuns(order: Int32Array, codes: RunCodes, setupCount: number): Groups {
  const n = order.length
  const cellStart = new Int32Array(n + 1)
  const sessionStart = new Int32Array(n + 1)
  const pilotStart = new Int32Array(n + 1)
  const cellSetup = new Int32Array(n)
  let [cells, sessions, pilots] = [0, 0, 0]
  let previous = -1
  for (let i = 0; i < n; i++) {
    const run = order[i]!
    const newPilot = previous < 0 || codes.pilot[run] !== codes.pilot[previous]
    const newSession = newPilot || codes.session[run] !== codes.session[previous]
    const newCell = newSession || codes.setup[run] !== codes.setup[previous]
    if (newPilot) pilotStart[pilots++] = sessions
    if (newSession) sessionStart[sessions++] = cells
    if (newCell) {
      cellStart[cells] = i
      cellSetup[cells++] = codes.setup[run]!
    }
    previous = run
  }
  cellStart[cells] = n
  sessionStart[sessions] = cells
  pilotStart[pilots] = sessions
  const levels = {
    ...{ runCount: n, cellCount: cells, sessionCount: sessions, pilotCount: pilots, setupCount },
    cellStart: cellStart.slice(0, cells + 1),
    sessionStart: sessionStart.slice(0, sessions + 1),
    pilotStart: pilotStart.slice(0, pilots + 1),
    cellSetup: cellSetup.slice(0, cells),
  }
  return { ...levels, ...setupsOfPilots(levels) }
}

/** Setups of each pilot in ascending order, and where each cell finds its own among them. */
function setupsOfPilots(
  levels: Pick<Groups, 'pilotStart' | 'sessionStart' | 'cellSetup' | 'setupCount'>,
): Pick<Groups, 'pilotSetup' | 'pilotSetupStart' | 'cellSlot'> {
  const { pilotStart, sessionStart, cellSetup, setupCount } = levels
  const pilotSetup: number[] = []
  const pilotSetupStart = new Int32Array(pilotStart.length)
  const cellSlot = new Int32Array(cellSetup.length)
  const slotOf = new Int32Array(setupCount)
  for (let pilot = 0; pilot < pilotStart.length - 1; pilot++) {
    const firstCell = sessionStart[pilotStart[pilot]!]!
    const endCell = sessionStart[pilotStart[pilot + 1]!]!
    const flown = [...new Set(cellSetup.subarray(firstCell, endCell))].sort((a, b) => a - b)
    for (const setup of flown) slotOf[setup] = pilotSetup.push(setup) - 1
    for (let cell = firstCell; cell < endCell; cell++) cellSlot[cell] = slotOf[cellSetup[cell]!]!
    pilotSetupStart[pilot + 1] = pilotSetup.length
  }
  return { pilotSetup: Int32Array.from(pilotSetup), pilotSetupStart, cellSlot }
}
