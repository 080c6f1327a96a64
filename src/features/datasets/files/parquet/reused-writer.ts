import { ByteWriter } from 'hyparquet-writer'

/** A writer whose memory serves again and again. */
export class ReusedWriter extends ByteWriter {
  /** Begins anew; what was read from it before is written over. */
  clear(): void {
    this.index = 0
    this.offset = 0
  }
}
