import type { ObservationColumns } from '../../src/core/mixed/layout.ts'
import { Pcg32 } from '../../src/core/random/pcg32.ts'

export interface SimulatedSize {
  readonly runs: number
  readonly setups: number
  readonly exact?: boolean
}

/** Standard deviations of pilots, sessions, cells and runs, and the largest known uncertainty. */
const SCATTER = { pilot: 0.02, session: 0.03, cell: 0.015, run: 0.02, uncertainty: 0.02 }
const RUNS_PER_SESSION = 8
const SETUPS_PER_SESSION = 3
const SESSIONS_PER_PILOT = 20

/**
 * Runs of a made-up community: 8 runs a session, 3 setups a session, 20 sessions a pilot. The same
 * numbers give the same runs.
 *
 * @param size how many runs and setups; exact: no run has a known uncertainty
 * @returns the runs as columns
 */
export function simulateColumns({
  runs,
  setups,
  exact = false,
}: SimulatedSize): ObservationColumns {
  const random = new Pcg32(runs, 1)
  const columns = {
    y: new Float64Array(runs),
    u: new Float64Array(runs),
    setup: new Int32Array(runs),
    session: new Int32Array(runs),
    pilot: new Int32Array(runs),
  }
  let pilotEffect = 0
  const sessions = Math.ceil(runs / RUNS_PER_SESSION)
  for (let session = 0; session < sessions; session++) {
    if (session % SESSIONS_PER_PILOT === 0) pilotEffect = SCATTER.pilot * random.normal()
    const sessionEffect = pilotEffect + SCATTER.session * random.normal()
    const flown = Array.from({ length: SETUPS_PER_SESSION }, () => ({
      setup: random.int(setups),
      effect: sessionEffect + SCATTER.cell * random.normal(),
    }))
    const end = Math.min(runs, (session + 1) * RUNS_PER_SESSION)
    for (let run = session * RUNS_PER_SESSION; run < end; run++) {
      const { setup, effect } = flown[random.int(SETUPS_PER_SESSION)]!
      const u = (exact ? 0 : SCATTER.uncertainty) * random.uniform()
      columns.u[run] = u
      columns.y[run] = 0.01 * setup + effect + Math.hypot(SCATTER.run, u) * random.normal()
      columns.setup[run] = setup
      columns.session[run] = session
      columns.pilot[run] = Math.floor(session / SESSIONS_PER_PILOT)
    }
  }
  const ids = (count: number, kind: string) =>
    Array.from({ length: count }, (_, i) => `${kind}-${i}`)
  return {
    ...columns,
    setupIds: ids(setups, 'setup'),
    sessionIds: ids(sessions, 'session'),
    pilotIds: ids(Math.ceil(sessions / SESSIONS_PER_PILOT), 'pilot'),
  }
}
