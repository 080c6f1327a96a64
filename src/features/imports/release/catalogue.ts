import type { PoolClient } from 'pg'

import { findSetupOf, insertSetup } from '../../../db/setups.ts'
import { type Fault, refuseFaults } from '../csv/faults.ts'
import type { CataloguePort } from '../ports.ts'
import { findKnownComponents, findKnownSetups, insertComponent } from './catalogue-repository.ts'
import type { CheckedRelease } from './check.ts'
import type { ReleaseRow } from './table.ts'

/** Which setup of this server each setup of a release is, and what had to be added for that. */
export interface ResolvedSetups {
  readonly setupIds: ReadonlyMap<string, string>
  readonly setupsAdded: readonly string[]
  readonly componentsAdded: readonly string[]
}

const PARTS = ['powerplant', 'propeller', 'frame'] as const

/**
 * Finds the setups of a release in this catalogue: by their id, else by their parts, where the release
 * tells them. A part is known by its id, else by its name where one alone here bears it and nothing that
 * both tell differs. What is new is added under the id it has in the release.
 *
 * @throws {ApiProblem} faulty-file for each setup that is unknown and not told, and each doubtful part
 */
export async function resolveSetups(
  client: PoolClient,
  { component }: CataloguePort,
  { release, accountId }: { readonly release: CheckedRelease; readonly accountId: string },
): Promise<ResolvedSetups> {
  const asked = new Map<string, number>()
  for (const { setupId, row } of release.runs) if (!asked.has(setupId)) asked.set(setupId, row)
  const setupIds = await findKnownSetups(client, [...asked.keys()])
  const told = byId(release.setups, 'setup_id')
  const unknown = [...asked].filter(([id]) => !setupIds.has(id))
  refuseFaults(unknown.filter(([id]) => !told.has(id)).map(untold))
  const wanted = unknown.map(([id]) => told.get(id)!)
  const parts = await resolveParts(client, component, { wanted, release, accountId })
  const setupsAdded: string[] = []
  for (const { cells } of wanted) {
    const id = String(cells.setup_id).toLowerCase()
    const partOf = (kind: (typeof PARTS)[number]) =>
      parts.ids.get(String(cells[`${kind}_id`]).toLowerCase())!
    const ofSetup = {
      powerplantId: partOf('powerplant'),
      propellerId: partOf('propeller'),
      frameId: partOf('frame'),
    }
    const known = await findSetupOf(client, ofSetup)
    const added = known === null ? await insertSetup(client, { id, ...ofSetup, accountId }) : null
    if (added !== null) setupsAdded.push(added)
    setupIds.set(id, known ?? added ?? (await findSetupOf(client, ofSetup))!)
  }
  return { setupIds, setupsAdded, componentsAdded: parts.added }
}

function untold([id, row]: [string, number]): Fault {
  const detail = `There is no set-up ${id} here: send the files setups and components of the release as further parts, then it is added.`
  return { file: 'runs', row, column: 'setup_id', detail }
}

async function resolveParts(
  client: PoolClient,
  schema: CataloguePort['component'],
  asked: {
    readonly wanted: readonly ReleaseRow[]
    readonly release: CheckedRelease
    readonly accountId: string
  },
): Promise<{ ids: ReadonlyMap<string, string>; added: string[] }> {
  const told = byId(asked.release.components, 'component_id')
  const named = new Map<string, { readonly row: number; readonly column: string }>()
  for (const { cells, number } of asked.wanted) {
    for (const kind of PARTS) {
      const column = `${kind}_id`
      const id = String(cells[column]).toLowerCase()
      if (!named.has(id)) named.set(id, { row: number, column })
    }
  }
  const ids = await findKnownComponents(client, [...named.keys()])
  const missing = [...named].filter(([id]) => !ids.has(id))
  refuseFaults(
    missing
      .filter(([id]) => !told.has(id))
      .map(([id, { row, column }]) => ({
        ...{ file: 'setups', row, column },
        detail: `There is no component ${id} here: send the file components of the release as a further part.`,
      })),
  )
  const faults: Fault[] = []
  const added: string[] = []
  for (const [id] of missing) {
    const same = await insertComponent(client, schema, {
      ...{ id, row: told.get(id)!, accountId: asked.accountId },
      refuse: (fault) => faults.push({ file: 'components', ...fault }),
    })
    if (same === id) added.push(id)
    if (same !== null) ids.set(id, same)
  }
  refuseFaults(faults)
  return { ids, added }
}

function byId(rows: readonly ReleaseRow[] | null, column: string): Map<string, ReleaseRow> {
  return new Map((rows ?? []).map((row) => [String(row.cells[column]).toLowerCase(), row]))
}
