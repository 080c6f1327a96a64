/**
 * Arrays in memory that threads share: a worker is handed the memory itself instead of a copy. Whoever makes one
 * fills it; nobody writes to it afterwards.
 */
export const sharedArray = {
  float64: (length: number): Float64Array =>
    new Float64Array(new SharedArrayBuffer(length * Float64Array.BYTES_PER_ELEMENT)),
  int32: (length: number): Int32Array =>
    new Int32Array(new SharedArrayBuffer(length * Int32Array.BYTES_PER_ELEMENT)),
  uint8: (length: number): Uint8Array => new Uint8Array(new SharedArrayBuffer(length)),
  /** Of the kind of another one. */
  like: <T extends Float64Array | Int32Array | Uint8Array>(other: T, length: number): T => {
    const Kind = other.constructor as new (memory: SharedArrayBuffer) => T
    return new Kind(new SharedArrayBuffer(length * other.BYTES_PER_ELEMENT))
  },
  copyOf: <T extends Float64Array | Int32Array | Uint8Array>(values: T): T => {
    const copy = sharedArray.like(values, values.length)
    copy.set(values)
    return copy
  },
} as const
