import { faultyFile } from './faults.ts'
import type { Upload } from './sheet.ts'

const LINE_FEED = 0x0a

/**
 * The text of a file, without its byte order mark.
 *
 * @throws {ApiProblem} faulty-file, with the rows that are not UTF-8
 */
export function decodeText({ part, bytes }: Upload): string {
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes)
  } catch {
    throw faultyFile(
      brokenLines(bytes).map((row) => ({
        file: part,
        row,
        detail: 'Is not UTF-8; save the file as CSV in UTF-8.',
      })),
    )
  }
}

function brokenLines(bytes: Buffer): number[] {
  const broken: number[] = []
  for (let start = 0, line = 1; start < bytes.length; line++) {
    const end = bytes.indexOf(LINE_FEED, start)
    const stop = end === -1 ? bytes.length : end
    if (!isUtf8(bytes.subarray(start, stop))) broken.push(line)
    start = stop + 1
  }
  return broken
}

function isUtf8(bytes: Uint8Array): boolean {
  try {
    new TextDecoder('utf-8', { fatal: true }).decode(bytes)
    return true
  } catch {
    return false
  }
}
