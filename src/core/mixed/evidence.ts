import { soleSessionFreeLabels } from './design/blocks.ts'
import type { Groups } from './design/groups.ts'
import { UnionFind } from './design/union-find.ts'
import type { Layout } from './layout.ts'

/**
 * How well a comparison of two setups is founded, strongest first.
 *
 * - `direct`: at least one session holds both;
 * - `connected`: linked by a chain of sessions, each holding two setups of the chain;
 * - `additive`: only through parts the setups share (not used by this model; named so that stored
 *   tiers need no change when it is);
 * - `betweenSessions`: no such chain; only the assumption that sessions and pilots scatter at
 *   random about a common mean compares them;
 * - `none`: a setup has no run, or the design holds no information on that scatter.
 */
export type EvidenceTier = 'direct' | 'connected' | 'additive' | 'betweenSessions' | 'none'

/** What is known about one setup. */
export interface SetupEvidence {
  readonly runs: number
  readonly sessions: number
  readonly pilots: number
  /** Sessions that hold it together with at least one other setup. */
  readonly independentSessions: number
  /** Setups with the same number are linked within sessions. */
  readonly component: number
  /** Setups with the same number stay linked whichever single session is taken away. */
  readonly soleSessionFreeGroup: number
}

/** The evidence of a layout: exact counts, no tolerance. Plain data. */
export interface Evidence {
  readonly setupIds: readonly string[]
  /** One entry per setup, in the order of setupIds. */
  readonly setups: readonly SetupEvidence[]
  /** Sessions that hold both setups, K × K; the diagonal holds each setup's own sessions. */
  readonly sharedSessions: Int32Array
  /** S − cs: sessions beyond those needed to hold each component together. */
  readonly spareSessions: number
}

/**
 * Evidence for every setup and pair, from the design alone: which setups were flown in which
 * sessions, not what was measured. A rank of the model matrix would call every pair estimable.
 *
 * @param layout the runs
 * @returns counts and groups, O(Σ m_s² + K²)
 * @source connectedness: J. A. Eccleston, A. Hedayat, Ann. Statist. 2, 1974, 1238-1255 (from
 *   memory); groups free of a sole session derived here
 */
export function gatherEvidence(layout: Layout): Evidence {
  const { setupCount: K, sessionCount } = layout
  const linked = linkSetups(layout)
  const components = linked.labels(K)
  const groups = soleSessionFreeLabels(layout)
  const counts = countPerSetup(layout)
  const sharedSessions = countShared(layout)
  return {
    setupIds: layout.setupIds,
    setups: Array.from({ length: K }, (_, k) => ({
      runs: counts.runs[k]!,
      sessions: sharedSessions[k + k * K]!,
      pilots: counts.pilots[k]!,
      independentSessions: counts.independentSessions[k]!,
      component: components[k]!,
      soleSessionFreeGroup: groups[k]!,
    })),
    sharedSessions,
    spareSessions: sessionCount - linked.setCount,
  }
}

/**
 * Tier of the comparison of two setups.
 *
 * @param evidence of the layout
 * @param a a setup id
 * @param b another setup id
 * @returns its tier; `none` also if an id is unknown, `direct` if both are the same setup
 * @source definition in {@link EvidenceTier}
 */
export function evidenceTier(evidence: Evidence, a: string, b: string): EvidenceTier {
  const i = evidence.setupIds.indexOf(a)
  const j = evidence.setupIds.indexOf(b)
  if (i < 0 || j < 0) return 'none'
  if (evidence.sharedSessions[i + j * evidence.setupIds.length]! > 0) return 'direct'
  if (evidence.setups[i]!.component === evidence.setups[j]!.component) return 'connected'
  return evidence.spareSessions > 0 ? 'betweenSessions' : 'none'
}

/**
 * Whether two setups are linked within sessions, but every link passes through one session.
 *
 * @param evidence of the layout
 * @param a a setup id
 * @param b another setup id
 * @returns true if taking away one session would part them; false if they are not linked at all
 * @source definition of {@link SetupEvidence.soleSessionFreeGroup}
 */
export function restsOnOneSession(evidence: Evidence, a: string, b: string): boolean {
  const first = evidence.setups[evidence.setupIds.indexOf(a)]
  const second = evidence.setups[evidence.setupIds.indexOf(b)]
  if (first === undefined || second === undefined) return false
  const sameGroup = first.soleSessionFreeGroup === second.soleSessionFreeGroup
  return first.component === second.component && !sameGroup
}

/**
 * Groups of setups in which no single session is the only link between two of them.
 *
 * @param evidence of the layout
 * @returns setup ids by group, groups and members in the order of setupIds; a setup whose every
 *   link rests on one session stands alone
 * @source definition of {@link SetupEvidence.soleSessionFreeGroup}
 */
export function soleSessionFreeGroups(evidence: Evidence): string[][] {
  const groups: string[][] = []
  evidence.setups.forEach(({ soleSessionFreeGroup: group }, k) => {
    groups[group] ??= []
    groups[group].push(evidence.setupIds[k]!)
  })
  return groups
}

/** Setups first, then sessions; joined where a session holds a setup. */
function linkSetups({ setupCount: K, sessionCount, sessionStart, cellSetup }: Groups): UnionFind {
  const linked = new UnionFind(K + sessionCount)
  for (let s = 0; s < sessionCount; s++) {
    for (let c = sessionStart[s]!; c < sessionStart[s + 1]!; c++) linked.union(cellSetup[c]!, K + s)
  }
  return linked
}

function countPerSetup(layout: Groups) {
  const { setupCount: K, cellCount, sessionCount, cellStart, cellSetup, sessionStart } = layout
  const runs = new Int32Array(K)
  const pilots = new Int32Array(K)
  const independentSessions = new Int32Array(K)
  for (let c = 0; c < cellCount; c++) runs[cellSetup[c]!]! += cellStart[c + 1]! - cellStart[c]!
  for (const setup of layout.pilotSetup) pilots[setup]!++
  for (let s = 0; s < sessionCount; s++) {
    if (sessionStart[s + 1]! - sessionStart[s]! < 2) continue
    for (let c = sessionStart[s]!; c < sessionStart[s + 1]!; c++) {
      independentSessions[cellSetup[c]!]!++
    }
  }
  return { runs, pilots, independentSessions }
}

function countShared({ setupCount: K, sessionCount, sessionStart, cellSetup }: Groups): Int32Array {
  const shared = new Int32Array(K * K)
  for (let s = 0; s < sessionCount; s++) {
    for (let c = sessionStart[s]!; c < sessionStart[s + 1]!; c++) {
      for (let d = sessionStart[s]!; d < sessionStart[s + 1]!; d++) {
        shared[cellSetup[c]! + cellSetup[d]! * K]!++
      }
    }
  }
  return shared
}
