import { countingSort } from '../design/canonical-order.ts'
import type { Groups } from '../design/groups.ts'

/**
 * Who adds to which column of a K × K sum over pilots. Column by column the sum stays in the fastest memory,
 * where pilot by pilot it is walked through at random; each entry sees its pilots in the same order either way.
 *
 * A slot is one setup of one pilot: an entry of layout.pilotSetup.
 */
export interface ColumnIndex {
  /** Slots by setup, pilots ascending within each; those of setup k from slotStart[k]. */
  readonly slots: Int32Array
  readonly slotStart: Int32Array
  /** Pilot of each slot. */
  readonly slotPilot: Int32Array
  /** Cells by slot, ascending within each; those of slot n from cellStart[n]. */
  readonly cells: Int32Array
  readonly cellStart: Int32Array
  /** Session of each cell. */
  readonly cellSession: Int32Array
}

/**
 * Lists slots by setup and cells by slot.
 *
 * @param layout groups of the runs
 * @returns the index, O(cells + slots + K)
 * @source common practice
 */
export function indexColumns(layout: Groups): ColumnIndex {
  const { pilotSetup, pilotSetupStart, pilotCount, setupCount, cellSlot, cellCount } = layout
  const slotPilot = new Int32Array(pilotSetup.length)
  for (let p = 0; p < pilotCount; p++) {
    slotPilot.fill(p, pilotSetupStart[p]!, pilotSetupStart[p + 1]!)
  }
  const cellSession = new Int32Array(cellCount)
  for (let s = 0; s < layout.sessionCount; s++) {
    cellSession.fill(s, layout.sessionStart[s]!, layout.sessionStart[s + 1]!)
  }
  return {
    slots: countingSort(pilotSetup, setupCount),
    slotStart: starts(pilotSetup, setupCount),
    slotPilot,
    cells: countingSort(cellSlot, pilotSetup.length),
    cellStart: starts(cellSlot, pilotSetup.length),
    cellSession,
  }
}

/** Place of the first item of each key in the sorted order, and the end. */
function starts(keys: Int32Array, keyCount: number): Int32Array {
  const first = new Int32Array(keyCount + 1)
  for (let i = 0; i < keys.length; i++) first[keys[i]! + 1]!++
  for (let key = 0; key < keyCount; key++) first[key + 1]! += first[key]!
  return first
}
