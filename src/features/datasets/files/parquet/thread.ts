import { Thread } from '../../../../threads/thread.ts'
import type { CsvPart, RowGroups } from './row-groups.ts'

/** Makes row groups in a thread of its own, so that no request waits for a large table. */
export class RowGroupThread {
  readonly #thread = new Thread(import.meta.url, 'worker')

  make(part: CsvPart): Promise<RowGroups> {
    return this.#thread.run(part)
  }

  async close(): Promise<void> {
    await this.#thread.close()
  }
}
