import { randomBytes } from 'node:crypto'

import type { Caller } from '../contract/caller.ts'
import { Pcg32 } from '../core/random/pcg32.ts'
import type { Database } from '../db/client.ts'
import { signUp } from '../features/accounts/service.ts'
import { NewComponent } from '../features/catalogue/components/schema.ts'
import { addComponent } from '../features/catalogue/components/service.ts'
import { addSetup } from '../features/catalogue/setups/service.ts'
import { NewSubmission } from '../features/submissions/schema.ts'
import { submit } from '../features/submissions/service.ts'
import { type DemoSubmission, simulateEvenings } from './simulate.ts'
import { readWorld, type World } from './world.ts'

/** Seed of the demo: the same evenings at every start. */
const SEED = 41

/**
 * Fills an empty database with the demo: its catalogue, its pilots and their evenings, through the
 * same services the API uses. Nothing is done where anybody has submitted anything.
 *
 * @returns how many evenings were loaded, 0 where there was something already
 */
export async function loadDemo(db: Database): Promise<number> {
  if ((await db.prisma.submission.count()) > 0 || (await db.prisma.component.count()) > 0) return 0
  const world = await readWorld()
  const callers = await openAccounts(db, world)
  const setups = await fillCatalogue(db, world, [...callers.values()][0]!)
  const evenings = simulateEvenings(world, new Pcg32(SEED))
  const desk = { db, onEvidenceChanged: () => {} } // one refresh at the end, by who called
  for (const evening of evenings) {
    const body = NewSubmission.parse(withSetupIds(evening, setups))
    await submit(desk, { caller: callers.get(evening.pilot)!, idempotencyKey: undefined, body })
  }
  return evenings.length
}

/** One account per pilot, with a password that nobody knows. */
async function openAccounts(db: Database, world: World): Promise<Map<string, Caller>> {
  const accounts = await Promise.all(
    world.people.map(async ({ name }) => {
      const email = `${name.toLowerCase().replace(' ', '.')}@demo.example`
      const password = randomBytes(32).toString('base64url')
      const { id } = await signUp(db, { email, password, displayName: name })
      return [name, { accountId: id, role: 'pilot' }] as [string, Caller]
    }),
  )
  return new Map(accounts)
}

/** Adds components and setups; gives the ids of the setups by key. */
async function fillCatalogue(db: Database, world: World, caller: Caller) {
  const components = new Map<string, string>()
  for (const [key, component] of Object.entries(world.catalogue.components)) {
    const added = await addComponent(db, caller, undefined, NewComponent.parse(component))
    components.set(key, added.body.id)
  }
  const setups = new Map<string, string>()
  for (const [key, [powerplant, propeller, frame]] of Object.entries(world.catalogue.setups)) {
    const added = await addSetup(db, caller, undefined, {
      powerplantId: components.get(powerplant)!,
      propellerId: components.get(propeller)!,
      frameId: components.get(frame)!,
    })
    setups.set(key, added.body.id)
  }
  return setups
}

function withSetupIds({ body }: DemoSubmission, setups: ReadonlyMap<string, string>) {
  return {
    ...body,
    entries: body.entries.map(({ setup, ...entry }) => ({ setupId: setups.get(setup)!, ...entry })),
  }
}
