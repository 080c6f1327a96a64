/** Entries below this share of the largest pivot count as zero. */
const TOLERANCE = 1e-9

/** The row space of a matrix, ready to be asked. */
export interface RowSpace {
  readonly rank: number
  /** Whether a vector is a combination of the rows. */
  contains(vector: ArrayLike<number>): boolean
}

/**
 * Row space of a matrix by elimination with complete pivoting; zero is judged against the largest pivot.
 *
 * @param rows vectors of one length n [any one unit]
 * @param n length of the vectors
 * @returns rank and membership; a vector belongs if what elimination leaves of it is below 1e-9 of its
 *   own size
 * @source G. H. Golub, C. F. Van Loan, Matrix Computations, 4th ed., 2013, §3.4.8 (complete pivoting)
 */
export function rowSpaceOf(rows: readonly ArrayLike<number>[], n: number): RowSpace {
  const left = rows.map((row) => Float64Array.from(row))
  const basis: { readonly row: Float64Array; readonly column: number }[] = []
  let largest = 0
  for (;;) {
    const pivot = largestEntry(left, n)
    largest = Math.max(largest, pivot.size)
    if (pivot.size === 0 || pivot.size <= TOLERANCE * largest) break
    const row = left.splice(pivot.row, 1)[0]!
    const found = { row, column: pivot.column }
    for (const other of left) eliminate(other, found)
    basis.push(found)
  }
  return {
    rank: basis.length,
    contains(vector) {
      const rest = Float64Array.from(vector)
      const size = largestOf(rest)
      for (const found of basis) eliminate(rest, found)
      return largestOf(rest) <= TOLERANCE * size
    },
  }
}

function largestEntry(rows: readonly Float64Array[], n: number) {
  const best = { row: -1, column: -1, size: 0 }
  for (const [i, row] of rows.entries()) {
    for (let j = 0; j < n; j++) {
      if (Math.abs(row[j]!) > best.size)
        Object.assign(best, { row: i, column: j, size: Math.abs(row[j]!) })
    }
  }
  return best
}

/** Takes from `target` so much of a row that nothing is left in its pivot column. Mutates `target`. */
function eliminate(
  target: Float64Array,
  { row, column }: { readonly row: Float64Array; readonly column: number },
): void {
  const factor = target[column]! / row[column]!
  if (factor === 0) return
  for (let j = 0; j < target.length; j++) target[j]! -= factor * row[j]!
  target[column] = 0
}

function largestOf(vector: Float64Array): number {
  return vector.reduce((largest, x) => Math.max(largest, Math.abs(x)), 0)
}
