import { countingSort } from '../design/canonical-order.ts'
import type { Groups } from '../design/groups.ts'

/** The cells of each slot; a slot is one setup of one pilot, an entry of layout.pilotSetup. */
export interface SlotCells {
  /** Cells by slot, ascending within each; those of slot n from cellStart[n]. */
  readonly cells: Int32Array
  readonly cellStart: Int32Array
  /** Session of each cell. */
  readonly cellSession: Int32Array
}

/**
 * Lists cells by slot.
 *
 * @param layout groups of the runs
 * @returns the lists, O(cells + slots)
 * @source common practice
 */
export function cellsOfSlots(layout: Groups): SlotCells {
  const { pilotSetup, cellSlot, cellCount, sessionStart, sessionCount } = layout
  const cellSession = new Int32Array(cellCount)
  for (let s = 0; s < sessionCount; s++) {
    cellSession.fill(s, sessionStart[s]!, sessionStart[s + 1]!)
  }
  const cellStart = new Int32Array(pilotSetup.length + 1)
  for (let c = 0; c < cellCount; c++) cellStart[cellSlot[c]! + 1]!++
  for (let n = 0; n < pilotSetup.length; n++) cellStart[n + 1]! += cellStart[n]!
  return { cells: countingSort(cellSlot, pilotSetup.length), cellStart, cellSession }
}
