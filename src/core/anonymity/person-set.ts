/** Members of a small group, one bit each. */
export type PersonSet = Uint32Array

/**
 * Nobody, among so many members.
 *
 * @source definition
 */
export function emptySet(members: number): PersonSet {
  return new Uint32Array((members + 31) >> 5)
}

/**
 * Everybody, among so many members.
 *
 * @source definition
 */
export function fullSet(members: number): PersonSet {
  const set = emptySet(members)
  for (let member = 0; member < members; member++) addInPlace(set, member)
  return set
}

/**
 * Adds a member; the set is changed.
 *
 * @source definition
 */
export function addInPlace(set: PersonSet, member: number): void {
  set[member >> 5]! |= 1 << (member & 31)
}

/**
 * Whether a member is in the set.
 *
 * @source definition
 */
export function has(set: PersonSet, member: number): boolean {
  return ((set[member >> 5]! >>> (member & 31)) & 1) === 1
}

/**
 * How many are in all of one to three sets.
 *
 * @source definition
 */
export function countInAll(a: PersonSet, b: PersonSet = a, c: PersonSet = a): number {
  let count = 0
  for (let word = 0; word < a.length; word++) count += bitsOf(a[word]! & b[word]! & c[word]!)
  return count
}

/**
 * Takes out whoever is not in the other set; the first is changed.
 *
 * @source definition
 */
export function keepOnlyInPlace(set: PersonSet, other: PersonSet): void {
  for (let word = 0; word < set.length; word++) set[word]! &= other[word]!
}

/** Ones among 32 bits, counted side by side. */
function bitsOf(word: number): number {
  let x = word - ((word >>> 1) & 0x55555555)
  x = (x & 0x33333333) + ((x >>> 2) & 0x33333333)
  return Math.imul((x + (x >>> 4)) & 0x0f0f0f0f, 0x01010101) >>> 24
}
