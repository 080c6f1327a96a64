import { type CsvPart, type RowGroups, rowGroupsOf } from './row-groups.ts'

/** What the thread of {@link RowGroupThread} does with a part. */
export default function work(part: CsvPart): RowGroups {
  return rowGroupsOf(part)
}
