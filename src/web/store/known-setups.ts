import { get, type Schemas } from '../api/client.ts'
import { readAll, write } from './database.ts'

type Setup = Schemas['Setup']

const PAGE = 200

/** Keeps setups at hand, so that they can be chosen at a field without a network. */
export async function keepSetups(setups: readonly Setup[]): Promise<void> {
  for (const setup of setups) await write('setups', setup.id, setup)
}

/** Takes the catalogue along, as far as one call brings it. */
export async function takeSetupsAlong(): Promise<void> {
  const { body } = await get('/v1/setups', { query: { limit: PAGE } })
  await keepSetups(body.items)
}

/** The kept setups whose names hold all the words. */
export async function searchKept(words: string): Promise<Setup[]> {
  const wanted = words.toLowerCase().split(/\s+/).filter(Boolean)
  const all = await readAll<Setup>('setups')
  return all.filter(({ name }) => wanted.every((word) => name.toLowerCase().includes(word)))
}
