import { staticThrustAt } from '../core/normalise/predict.ts'
import type { Pcg32 } from '../core/random/pcg32.ts'
import { normal, round } from './chance.ts'
import { airAbove, equipmentOf, type TrueSession } from './runs.ts'
import type { World } from './world.ts'

/** Share of evenings that begin with a pull and a sound meter on the ground. */
const SHARE_OF_EVENINGS = 0.45

/** What a pilot's scale and sound meter are off by, the same on all evenings. */
export interface GroundGear {
  readonly logScale: number
  readonly meterDb: number
}

/** A scale and a sound meter, each with an error of its own. */
export function groundGear(world: World, random: Pcg32): GroundGear {
  const { pilotScale, meterDb } = world.truth.scatter.ground
  return { logScale: normal(random, pilotScale), meterDb: normal(random, meterDb) }
}

/** What one evening on the ground adds: the loudness of the place, or nothing if nobody measured. */
export function groundEvening(world: World, random: Pcg32): { readonly siteDb: number } | null {
  const siteDb = normal(random, world.truth.scatter.ground.sessionDb)
  return random.uniform() < SHARE_OF_EVENINGS ? { siteDb } : null
}

/** A static pull and a sound level at the ear at full throttle, as the pilot writes them down. */
export function groundRuns(
  world: World,
  flown: {
    readonly session: TrueSession
    readonly setup: string
    readonly gear: GroundGear
    readonly siteDb: number
  },
  random: Pcg32,
): object[] {
  const { session, setup, gear, siteDb } = flown
  const { staticThrustN, soundAtEarDb } = world.truth.setups[setup]!
  const { pull, runDb } = world.truth.scatter.ground
  const { state } = airAbove(session, 0)
  const thrustN = staticThrustAt({ staticThrustN, ...equipmentOf(world, setup) }, state)
  const level = soundAtEarDb + gear.meterDb + siteDb + normal(random, runDb)
  return [
    {
      kind: 'staticPull',
      thrustN: round(thrustN * Math.exp(gear.logScale + normal(random, pull)), 0),
      headwindMps: 0,
    },
    {
      kind: 'soundLevel',
      levelDbA: round(level, 1),
      position: 'pilotEar',
      power: 'full',
      instrument: 'class2',
    },
  ]
}
