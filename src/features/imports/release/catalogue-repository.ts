import type { PoolClient } from 'pg'
import type { z } from 'zod'

import type { Fault } from '../csv/faults.ts'
import type { ReleaseRow } from './table.ts'

/** Setups that are known by these ids; a merged one as its survivor. */
export async function findKnownSetups(
  client: PoolClient,
  ids: readonly string[],
): Promise<Map<string, string>> {
  return known(client, 'setup', ids)
}

/** The same of components. */
export async function findKnownComponents(
  client: PoolClient,
  ids: readonly string[],
): Promise<Map<string, string>> {
  return known(client, 'component', ids)
}

async function known(client: PoolClient, table: 'setup' | 'component', ids: readonly string[]) {
  const { rows } = await client.query<{ id: string; survivor: string }>(
    `SELECT id::text, COALESCE(merged_into_id, id)::text AS survivor FROM ${table} WHERE id = ANY ($1::uuid[])`,
    [ids],
  )
  return new Map(rows.map(({ id, survivor }) => [id, survivor]))
}

/** What tells parts of one name apart, as far as a release tells it. */
const DISTINGUISHING = [
  'drive',
  'displacement_cc',
  'reduction_ratio',
  'diameter_cm',
  'pitch_cm',
  'blades',
] as const

interface NewPart {
  readonly id: string
  readonly row: ReleaseRow
  readonly accountId: string
  readonly refuse: (fault: Omit<Fault, 'file'>) => void
}

/**
 * Adds a component of a release, unless the catalogue has it under another id.
 *
 * @returns the id it has here; null where it was refused
 */
export async function insertComponent(
  client: PoolClient,
  schema: z.ZodType,
  { id, row, accountId, refuse }: NewPart,
): Promise<string | null> {
  const same = await sameComponents(client, row)
  if (same.length === 1) return same[0]!
  if (same.length > 1) {
    const detail = `The catalogue has ${same.length} components that this may be: ${same.join(', ')}. Merge them or make them tell more first.`
    refuse({ row: row.number, column: 'model', detail })
    return null
  }
  const checked = schema.safeParse(asPosted(row))
  if (!checked.success) {
    for (const { path, message } of checked.error.issues) {
      refuse({ row: row.number, column: snakeCase(String(path[0] ?? 'kind')), detail: message })
    }
    return null
  }
  const { component_id: _, ...cells } = row.cells
  const columns = Object.keys(cells).filter((name) => cells[name] !== null)
  const places = columns.map((_name, index) => `$${index + 3}`)
  await client.query(
    `INSERT INTO component (id, created_by_id, ${columns.join(', ')}) VALUES ($1, $2, ${places.join(', ')})`,
    [id, accountId, ...columns.map((name) => cells[name])],
  )
  return id
}

/** Components of that name of which nothing is told that differs. */
async function sameComponents(client: PoolClient, { cells }: ReleaseRow): Promise<string[]> {
  const told = DISTINGUISHING.map(
    (name, index) =>
      `(c.${name} IS NULL OR $${index + 5}::text IS NULL OR c.${name}::text = $${index + 5}::text)`,
  )
  const { rows } = await client.query<{ id: string }>(
    `SELECT DISTINCT COALESCE(c.merged_into_id, c.id)::text AS id FROM component c
      WHERE c.kind = $1 AND lower(c.maker) = lower($2) AND lower(c.model) = lower($3)
        AND COALESCE(c.tune, 'asDelivered') = COALESCE($4, 'asDelivered')
        AND ${told.join(' AND ')}`,
    ['kind', 'maker', 'model', 'tune', ...DISTINGUISHING].map((name) => {
      const cell = cells[name] ?? null
      return cell === null ? null : String(cell)
    }),
  )
  return rows.map(({ id }) => id)
}

/** The row as a new component would be posted. */
function asPosted({ cells }: ReleaseRow): Record<string, unknown> {
  const { component_id: _, ...fields } = cells
  return Object.fromEntries(
    Object.entries(fields)
      .filter(([, cell]) => cell !== null)
      .map(([name, cell]) => [camelCase(name), cell]),
  )
}

function camelCase(name: string): string {
  return name.replace(/_([a-z0-9])/g, (_match, letter: string) => letter.toUpperCase())
}

function snakeCase(field: string): string {
  return field.replace(/[A-Z]/g, (letter) => `_${letter.toLowerCase()}`)
}
