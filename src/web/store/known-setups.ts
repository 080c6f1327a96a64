import { type Got, get, type Schemas } from '../api/client.ts'
import { read, readAll, writeAll } from './database.ts'

type Setup = Schemas['Setup']

/** Setups of one call, and how many calls at most: a catalogue larger than that is searched by name. */
const PAGE = 200
const MOST_PAGES = 10

/** Keeps setups at hand, so that they can be chosen at a field without a network. */
export async function keepSetups(setups: readonly Setup[]): Promise<void> {
  await writeAll(setups.map((setup) => ({ store: 'setups', key: setup.id, value: setup })))
}

/** Takes the catalogue along, with what speaks against flying any of it. */
export async function takeSetupsAlong(): Promise<void> {
  let cursor: string | null = null
  for (let page = 0; page < MOST_PAGES; page += 1) {
    const query: { limit: number; cursor?: string } = { limit: PAGE }
    if (cursor !== null) query.cursor = cursor
    const { body }: Got<Schemas['SetupPage']> = await get('/v1/setups', { query })
    await keepSetups(body.items)
    cursor = body.nextCursor
    if (cursor === null) return
  }
}

/** The setup as this device kept it. */
export function keptSetup(id: string): Promise<Setup | undefined> {
  return read<Setup>('setups', id)
}

/** The kept setups whose names hold all the words. */
export async function searchKept(words: string): Promise<Setup[]> {
  const wanted = words.toLowerCase().split(/\s+/).filter(Boolean)
  const all = await readAll<Setup>('setups')
  return all.filter(({ name }) => wanted.every((word) => name.toLowerCase().includes(word)))
}
