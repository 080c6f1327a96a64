import type { Database } from '../../db/client.ts'

/** Names of components for people, by id; a propeller with its diameter. */
export async function findPartNames(
  db: Database,
  ids: readonly string[],
): Promise<ReadonlyMap<string, string>> {
  const rows = await db.prisma.component.findMany({ where: { id: { in: [...ids] } } })
  return new Map(
    rows.map(({ id, maker, model, diameterCm, tune }) => {
      const diameter = diameterCm === null ? '' : ` ${diameterCm} cm`
      return [id, `${maker} ${model}${diameter}${tune === 'modified' ? ' modified' : ''}`]
    }),
  )
}
