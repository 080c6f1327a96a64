import { grown } from '../grown.ts'

/** Byte strings, each once, numbered in the order in which they came. */
export class ByteDictionary {
  #bytes = new Uint8Array(4096)
  /** Where each string ends; where the one before ends, it begins. */
  #ends = new Int32Array(512)
  #slots = new Int32Array(1024).fill(-1)
  #size = 0
  /** The string asked for last, −1 for none: most columns say the same again. */
  #last = -1

  get size(): number {
    return this.#size
  }

  /** The number of a string; a new one gets the next. */
  indexOf(source: Uint8Array, start: number, end: number): number {
    if (this.#last === -1 || !this.#isAt(this.#last, source, start, end)) {
      this.#last = this.#find(source, start, end)
    }
    return this.#last
  }

  #find(source: Uint8Array, start: number, end: number): number {
    const mask = this.#slots.length - 1
    let slot = hashOf(source, start, end) & mask
    for (let known = this.#slots[slot]!; known !== -1; known = this.#slots[slot]!) {
      if (this.#isAt(known, source, start, end)) return known
      slot = (slot + 1) & mask
    }
    this.#slots[slot] = this.#size
    return this.#append(source, start, end)
  }

  #isAt(index: number, source: Uint8Array, start: number, end: number): boolean {
    const from = this.startOf(index)
    const length = end - start
    if (this.#ends[index]! - from !== length) return false
    const bytes = this.#bytes
    for (let i = 0; i < length; i++) if (bytes[from + i] !== source[start + i]) return false
    return true
  }

  /** A view of the string of that number; valid until the next one is added. */
  at(index: number): Uint8Array {
    return this.#bytes.subarray(this.startOf(index), this.#ends[index])
  }

  startOf(index: number): number {
    return index === 0 ? 0 : this.#ends[index - 1]!
  }

  clear(): void {
    this.#size = 0
    this.#last = -1
    this.#slots.fill(-1)
  }

  #append(source: Uint8Array, start: number, end: number): number {
    const index = this.#size++
    const from = this.startOf(index)
    const stop = from + end - start
    if (stop > this.#bytes.length) this.#bytes = grown(this.#bytes, stop)
    if (index === this.#ends.length) {
      const ends = new Int32Array(2 * index)
      ends.set(this.#ends)
      this.#ends = ends
    }
    for (let i = start; i < end; i++) this.#bytes[from + i - start] = source[i]!
    this.#ends[index] = stop
    if (2 * this.#size > this.#slots.length) this.#spread()
    return index
  }

  /** Twice the slots, so that half of them stay free. */
  #spread(): void {
    const mask = 2 * this.#slots.length - 1
    this.#slots = new Int32Array(mask + 1).fill(-1)
    for (let index = 0; index < this.#size; index++) {
      let slot = hashOf(this.#bytes, this.startOf(index), this.#ends[index]!) & mask
      while (this.#slots[slot] !== -1) slot = (slot + 1) & mask
      this.#slots[slot] = index
    }
  }
}

/** FNV-1a, 32 bits, its upper half folded in. */
function hashOf(source: Uint8Array, start: number, end: number): number {
  let hash = 0x811c9dc5
  for (let i = start; i < end; i++) hash = Math.imul(hash ^ source[i]!, 0x01000193)
  return hash ^ (hash >>> 15)
}
