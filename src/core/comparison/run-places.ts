import type { Layout } from '../mixed/layout.ts'

/** Where a run was flown. */
export interface RunPlace {
  readonly session: string
  readonly setup: string
}

/**
 * Session and setup of each cell.
 *
 * @param layout the runs
 * @returns one entry per cell, in the order of the layout
 * @source derived
 */
export function cellPlaces(layout: Layout): RunPlace[] {
  const { sessionStart, cellSetup, sessionIds, setupIds } = layout
  const places: RunPlace[] = []
  for (let s = 0; s < layout.sessionCount; s++) {
    for (let c = sessionStart[s]!; c < sessionStart[s + 1]!; c++) {
      places.push({ session: sessionIds[s]!, setup: setupIds[cellSetup[c]!]! })
    }
  }
  return places
}

/**
 * Session and setup of each run.
 *
 * @param layout the runs
 * @returns one entry per run, in the order of the observations
 * @source derived
 */
export function runPlaces(layout: Layout): RunPlace[] {
  const { cellStart, order } = layout
  const places: RunPlace[] = []
  for (const [c, place] of cellPlaces(layout).entries()) {
    for (let i = cellStart[c]!; i < cellStart[c + 1]!; i++) places[order[i]!] = place
  }
  return places
}
