import { Thread } from '../../../../threads/thread.ts'
import type { RowGroups, TablePart } from './row-groups.ts'

/** Row groups, and the memory of the blocks that they were made of. */
export type RowGroupsAndBlocks = RowGroups & Pick<TablePart, 'blocks'>

/** Makes row groups in a thread of its own, so that no request waits for a large table. */
export class RowGroupThread {
  readonly #thread = new Thread(import.meta.url, 'worker')

  /** @param part its blocks are gone until they come back with the row groups */
  make(part: TablePart): Promise<RowGroupsAndBlocks> {
    return this.#thread.run(part, { memory: [part.blocks.buffer] })
  }

  async close(): Promise<void> {
    await this.#thread.close()
  }
}
