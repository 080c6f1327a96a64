/** The ids that occur, sorted, and the new code of each run. */
export interface SortedIds {
  readonly ids: readonly string[]
  readonly codes: Int32Array
}

/**
 * Renumbers the ids that occur by their sorted order (UTF-16 code units, no locale), so that
 * a code no longer depends on the order of the rows. Ids without a run are left out.
 *
 * @param codes id of each run, as an index into ids
 * @param ids distinct ids
 * @returns sorted ids and the new codes
 * @source common practice
 */
export function sortIds(codes: Int32Array, ids: readonly string[]): SortedIds {
  const used = new Uint8Array(ids.length)
  for (let i = 0; i < codes.length; i++) used[codes[i]!] = 1
  if (used.every((yes) => yes === 1) && isSorted(ids)) return { ids, codes }
  const sorted = ids.filter((_, code) => used[code] === 1).sort()
  const rankOfId = new Map(sorted.map((id, rank) => [id, rank]))
  const rankOfCode = Int32Array.from(ids, (id) => rankOfId.get(id) ?? -1)
  return { ids: sorted, codes: translate(codes, rankOfCode) }
}

/**
 * Whether ids stand in ascending order (UTF-16 code units, no locale).
 *
 * @param ids any ids; may be empty
 * @returns true where none comes before the one in front of it
 * @source common practice
 */
export function isSorted(ids: readonly string[]): boolean {
  for (let i = 1; i < ids.length; i++) if (ids[i - 1]! > ids[i]!) return false
  return true
}

/**
 * Replaces codes by what a table has for them.
 *
 * @param codes one per run
 * @param table new code of each code
 * @returns the new codes
 * @source common practice
 */
export function translate(codes: Int32Array, table: Int32Array): Int32Array {
  const translated = new Int32Array(codes.length)
  for (let i = 0; i < codes.length; i++) translated[i] = table[codes[i]!]!
  return translated
}

/**
 * Order that sorts items by an integer key and keeps the given order among equal keys.
 *
 * @param keys key of each item, 0 to keyCount − 1
 * @param keyCount number of possible keys
 * @param order items in their present order; all of them in sequence when left out
 * @returns items, smallest key first, in O(n + keyCount)
 * @source D. E. Knuth, The Art of Computer Programming 3, 2nd ed., 1998, §5.2 (distribution counting)
 */
export function countingSort(keys: Int32Array, keyCount: number, order?: Int32Array): Int32Array {
  const next = new Int32Array(keyCount + 1)
  for (let i = 0; i < keys.length; i++) next[keys[i]! + 1]!++
  for (let key = 0; key < keyCount; key++) next[key + 1]! += next[key]!
  const sorted = new Int32Array(keys.length)
  for (let i = 0; i < keys.length; i++) {
    const item = order === undefined ? i : order[i]!
    sorted[next[keys[item]!]!++] = item
  }
  return sorted
}

/** Longest range sorted by insertion; beyond it the built-in sort wins. */
const INSERTION_LIMIT = 24

/**
 * Sorts runs order[start … end − 1] by y, then u, in place. Runs equal in both are
 * interchangeable, so the sequence of values is the same whatever the order was before.
 *
 * @param order run numbers. Mutated.
 * @param range first place and the place after the last
 * @param values y and u of every run
 * @source D. E. Knuth, The Art of Computer Programming 3, 2nd ed., 1998, §5.2.1 (insertion)
 */
export function sortByValueInPlace(
  order: Int32Array,
  range: { readonly start: number; readonly end: number },
  values: { readonly y: Float64Array; readonly u: Float64Array },
): void {
  const { y, u } = values
  const { start, end } = range
  if (end - start > INSERTION_LIMIT) {
    order.subarray(start, end).sort((a, b) => y[a]! - y[b]! || u[a]! - u[b]!)
    return
  }
  for (let i = start + 1; i < end; i++) {
    const item = order[i]!
    let place = i
    while (place > start) {
      const before = order[place - 1]!
      if (y[before]! < y[item]! || (y[before] === y[item] && u[before]! <= u[item]!)) break
      order[place--] = before
    }
    order[place] = item
  }
}
