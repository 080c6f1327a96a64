import type { ByteRange } from './store.ts'

/**
 * What a Range header asks of a file of that length (RFC 9110, 14.2): null for the whole file, also
 * where the header is malformed or asks for several ranges, which a server may ignore.
 */
export function rangeOf(
  header: string | undefined,
  sizeBytes: number,
): ByteRange | 'unsatisfiable' | null {
  const match = /^bytes=\s*(\d*)-(\d*)\s*$/i.exec(header ?? '')
  if (match === null) return null
  const [, from, to] = match
  if (from === '' && to === '') return null
  if (from === '') return lastBytes(Number(to), sizeBytes)
  const first = Number(from)
  const last = to === '' ? sizeBytes - 1 : Math.min(Number(to), sizeBytes - 1)
  if (to !== '' && Number(to) < first) return null
  return first >= sizeBytes ? 'unsatisfiable' : { first, last }
}

function lastBytes(count: number, sizeBytes: number): ByteRange | 'unsatisfiable' {
  if (count === 0 || sizeBytes === 0) return 'unsatisfiable'
  return { first: Math.max(0, sizeBytes - count), last: sizeBytes - 1 }
}
