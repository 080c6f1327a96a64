/**
 * Records of people as ordered codes. Record r has the code `codes[c][r]` in column c: 0 for what is
 * not known, else 1 to `levels[c]` in the order of the values.
 */
export interface CodedRecords {
  /** Person of every record, numbered from 0. */
  readonly persons: Int32Array
  /** How much keeping the record's values is worth, such as its number of runs. */
  readonly weights: Int32Array
  readonly codes: readonly Int32Array[]
  readonly levels: readonly number[]
  /** How much keeping each column is worth against the others. */
  readonly columnWeights: readonly number[]
}

/** Records that show the same ranges. */
export interface SharedClass {
  /** Records, ascending. */
  readonly records: Int32Array
  /** Lowest and highest code of every column; both are shown, and nothing more. */
  readonly low: readonly number[]
  readonly high: readonly number[]
}
