import { COMPONENTS, type Component, type PerComponent, perComponent } from '../components.ts'
import type { Groups } from './groups.ts'
import { UnionFind } from './union-find.ts'

/** Which components the design can tell apart. */
export interface Separability {
  /** Rank each component adds to the design; 0: it cannot be told from what comes before it. */
  readonly degreesOfFreedom: PerComponent<number>
  /** Components to be estimated: neither fixed nor inseparable. */
  readonly estimable: PerComponent<boolean>
  /** The component that carries an inseparable one; null if none does. */
  readonly mergedInto: PerComponent<Component | null>
}

/**
 * Separability of the variance components, from exact ranks (integers, no tolerance).
 *
 *     rank with pilots K + P − cp, with sessions K + S − cs, with cells C, with runs N;
 *     cp, cs: components of the bipartite graphs setup-pilot and setup-session
 *
 * A component has the rank it adds to the coarser ones. Without fixed components:
 * pilot P − cp, session (S − cs) − pilot, cell C − (K + S − cs), run N − C. Rules:
 *
 * - no rank for runs: the finest component with rank is merged into the runs, whose variance is
 *   the cautious place for it within a session;
 * - no rank for cells: their variance must come from outside and is taken as zero (merged into
 *   sessions where every session is one cell);
 * - no rank for sessions: merged into pilots, or nothing if pilots have no rank either.
 *
 * @param groups the design
 * @param fixed components with a value given by the caller; their rank goes to the next finer one
 * @returns ranks, and what to estimate
 * @source D. A. Harville, J. Amer. Statist. Assoc. 72, 1977, 320-338 (error contrasts; from
 *   memory); counts derived for this model
 */
export function separability(
  groups: Groups,
  fixed: Readonly<Partial<Record<Component, unknown>>>,
): Separability {
  const { setupCount: K, runCount, cellCount, sessionCount, pilotCount } = groups
  const { pilotSets, sessionSets } = countSets(groups)
  const ranks = perComponent(
    (j) => [K + pilotCount - pilotSets, K + sessionCount - sessionSets, cellCount, runCount][j]!,
  )
  let before = K
  const degreesOfFreedom = { pilot: 0, session: 0, cell: 0, run: 0 }
  for (const component of COMPONENTS) {
    if (fixed[component] !== undefined) continue
    degreesOfFreedom[component] = ranks[component] - before
    before = ranks[component]
  }
  const isFree = (component: Component) => fixed[component] === undefined
  const mergedInto = merges(groups, degreesOfFreedom, isFree)
  const estimable = perComponent((j) => {
    const component = COMPONENTS[j]!
    const carriesAnother = COMPONENTS.some((other) => mergedInto[other] === component)
    const hasRank = degreesOfFreedom[component] > 0 || carriesAnother
    return isFree(component) && hasRank && mergedInto[component] === null
  })
  return { degreesOfFreedom, estimable, mergedInto }
}

function merges(
  { cellCount, sessionCount }: Groups,
  degreesOfFreedom: PerComponent<number>,
  isFree: (component: Component) => boolean,
): PerComponent<Component | null> {
  const merged: Record<Component, Component | null> = {
    pilot: null,
    session: null,
    cell: null,
    run: null,
  }
  const separable = (component: Component) => isFree(component) && degreesOfFreedom[component] > 0
  const inseparable = (component: Component) => isFree(component) && !separable(component)
  if (inseparable('run')) {
    const finest = (['cell', 'session', 'pilot'] as const).find(separable)
    if (finest !== undefined) merged[finest] = 'run'
  }
  if (inseparable('cell') && separable('session') && cellCount === sessionCount) {
    merged.cell = 'session'
  }
  if (inseparable('session') && separable('pilot')) merged.session = 'pilot'
  for (const component of COMPONENTS) {
    const target = merged[component]
    if (target !== null && merged[target] !== null) merged[component] = merged[target]
  }
  return merged
}

/** Connected sets of setups and pilots, and of setups and sessions. */
function countSets(groups: Groups): { pilotSets: number; sessionSets: number } {
  const { setupCount: K, sessionCount, pilotCount } = groups
  const byPilot = new UnionFind(K + pilotCount)
  for (let p = 0; p < pilotCount; p++) {
    const end = groups.pilotSetupStart[p + 1]!
    for (let i = groups.pilotSetupStart[p]!; i < end; i++)
      byPilot.union(groups.pilotSetup[i]!, K + p)
  }
  const bySession = new UnionFind(K + sessionCount)
  for (let s = 0; s < sessionCount; s++) {
    const end = groups.sessionStart[s + 1]!
    for (let c = groups.sessionStart[s]!; c < end; c++) bySession.union(groups.cellSetup[c]!, K + s)
  }
  return { pilotSets: byPilot.setCount, sessionSets: bySession.setCount }
}
