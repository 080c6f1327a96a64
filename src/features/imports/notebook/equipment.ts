import type { Pool, PoolClient } from 'pg'

import type { Fault } from '../csv/faults.ts'
import { type NotebookColumn, PART_COLUMNS } from './columns.ts'
import { findPartsByName, findSetupsOfParts, type NamedPart } from './equipment-repository.ts'
import type { NotebookRow } from './rows.ts'

const KINDS = ['powerplant', 'propeller', 'frame'] as const

/** How a row names the setup that was flown. */
export interface NamedSetup {
  /** Null where a fault says why. */
  readonly setupId: string | null
  readonly byParts: boolean
}

/** Per row the setup it names, by its id or by its parts; what the catalogue does not know once is a fault. */
export async function setupsOfRows(
  source: Pool | PoolClient,
  rows: readonly NotebookRow[],
  { faults, part }: { readonly faults: Fault[]; readonly part?: string | undefined },
): Promise<NamedSetup[]> {
  const named = rows.map((row) => (textOf(row, 'setup_id') === null ? partsOf(row) : null))
  const asked = new Map<string, Asked>()
  named.forEach((parts, index) => {
    if (parts === null || parts.some((name) => name === null)) return
    const key = keyOf(parts)
    if (!asked.has(key)) asked.set(key, { parts: parts as string[], row: rows[index]!.number })
  })
  const found = await lookUp(source, asked, (fault) => faults.push({ file: part, ...fault }))
  return rows.map((row, index) => {
    const parts = named[index]!
    if (parts === null) return { setupId: textOf(row, 'setup_id'), byParts: false }
    const missing = PART_COLUMNS.filter((_, i) => parts[i] === null)
    for (const column of missing) {
      const detail =
        missing.length === PART_COLUMNS.length
          ? 'Give setup_id, or maker and model of powerplant, propeller and frame.'
          : 'Is needed where a setup is named by its parts.'
      faults.push({ file: part, row: row.number, column, detail })
      if (missing.length === PART_COLUMNS.length) break
    }
    return { setupId: found.get(keyOf(parts)) ?? null, byParts: true }
  })
}

interface Asked {
  /** Maker and model of each part, in the order of PART_COLUMNS. */
  readonly parts: readonly string[]
  /** The first row that names them. */
  readonly row: number
}

type Refuse = (fault: Omit<Fault, 'file'>) => void

/** Setups by the key of their names; each name is looked up once, and refused once. */
async function lookUp(
  source: Pool | PoolClient,
  asked: ReadonlyMap<string, Asked>,
  refuse: Refuse,
): Promise<Map<string, string>> {
  const known = await idsOfParts(source, asked, refuse)
  const wanted = [...asked].flatMap(([key, { parts, row }]) => {
    const ids = KINDS.map((kind, i) => known.get(nameKey(namedPart(parts, kind, i))))
    return ids.every((id) => id !== undefined) ? [{ key, row, ids: ids as string[] }] : []
  })
  const setups = await findSetupsOfParts(
    source,
    wanted.map(({ ids }) => ids),
  )
  const found = new Map<string, string>()
  wanted.forEach(({ key, row }, index) => {
    const setupId = setups[index]
    if (setupId !== null && setupId !== undefined) found.set(key, setupId)
    else {
      const detail = 'No setup is made of these three parts; add it with POST /v1/setups.'
      refuse({ row, column: 'powerplant_model', detail })
    }
  })
  return found
}

async function idsOfParts(
  source: Pool | PoolClient,
  asked: ReadonlyMap<string, Asked>,
  refuse: Refuse,
): Promise<Map<string, string>> {
  const parts = new Map<string, NamedPart & { readonly row: number }>()
  for (const { parts: names, row } of asked.values()) {
    KINDS.forEach((kind, i) => {
      const part = namedPart(names, kind, i)
      if (!parts.has(nameKey(part))) parts.set(nameKey(part), { ...part, row })
    })
  }
  const list = [...parts.values()]
  const matches = await findPartsByName(source, list)
  const known = new Map<string, string>()
  list.forEach((part, index) => {
    const ids = matches[index]!
    if (ids.length === 1) known.set(nameKey(part), ids[0]!)
    else refuse({ row: part.row, column: `${part.kind}_model`, detail: notOnce(part, ids) })
  })
  return known
}

function notOnce({ kind, maker, model }: NamedPart, ids: readonly string[]): string {
  return ids.length === 0
    ? `The catalogue has no ${kind} ${maker} ${model}; add it with POST /v1/components.`
    : `The catalogue has ${ids.length} of kind ${kind} named ${maker} ${model}; give setup_id, from GET /v1/setups.`
}

function namedPart(names: readonly string[], kind: string, index: number): NamedPart {
  return { kind, maker: names[2 * index]!, model: names[2 * index + 1]! }
}

function nameKey({ kind, maker, model }: NamedPart): string {
  return JSON.stringify([kind, maker, model]).toLowerCase()
}

function partsOf(row: NotebookRow): (string | null)[] {
  return PART_COLUMNS.map((name) => textOf(row, name))
}

function keyOf(parts: readonly (string | null)[]): string {
  return JSON.stringify(parts).toLowerCase()
}

/** A cell of text, or null where it is empty. */
export function textOf({ values }: NotebookRow, name: NotebookColumn['name']): string | null {
  for (const [column, value] of values) if (column.name === name) return value as string
  return null
}
