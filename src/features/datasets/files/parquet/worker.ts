import { handOver } from '../../../../threads/thread.ts'
import { RowGroupMaker, type RowGroups, type TablePart } from './row-groups.ts'

/** That of the part before: most are of the same table. */
let last: { readonly table: string; readonly maker: RowGroupMaker } | null = null

/** What the thread of {@link RowGroupThread} does with a part; gives the memory of the blocks back. */
export default function work({ columns, blocks }: TablePart): unknown {
  const table = JSON.stringify(columns)
  if (last?.table !== table) last = { table, maker: new RowGroupMaker(columns) }
  const groups: RowGroups = last.maker.make(blocks)
  return handOver({ ...groups, blocks }, [groups.bytes.buffer, blocks.buffer])
}
