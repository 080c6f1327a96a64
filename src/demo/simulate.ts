import type { AirMotion, FlightState } from '../core/normalise/types.ts'
import type { Pcg32 } from '../core/random/pcg32.ts'
import { normal, round } from './chance.ts'
import { groundEvening, groundGear, groundRuns } from './ground.ts'
import { burnRun, climbRun, type TrueSession } from './runs.ts'
import type { World, WorldPilot } from './world.ts'

/** A submission of the demo, its setups still by key. */
export interface DemoSubmission {
  readonly pilot: string
  readonly body: {
    readonly entries: readonly {
      readonly setup: string
      readonly allUpMassKg: number
      readonly runs: readonly object[]
    }[]
    readonly [field: string]: unknown
  }
}

const SESSIONS = 80
/** The setup nobody flies beside another; its two pilots fly two evenings each. */
const LONELY = 'h250-sweep130-basket'
/** Wing, harness, clothing and a half-full tank [kg]. */
const GEAR_KG = 17
const AIR_MOTIONS: readonly AirMotion[] = [
  'calm',
  'calm',
  'light',
  'light',
  'light',
  'active',
  'active',
  'thermic',
]
/** The session and run of the gross slip: the stopwatch started halfway up. */
const SLIP = { session: 33, factor: 0.55 }

/**
 * Flies the demo's evenings: climbs, burns, pulls and sound levels as their pilots would have written them down.
 *
 * The truth is `seed/truth.json` carried to each evening's air, mass and wing, with effects of pilot,
 * day and setup on the day, vertical air per session and per run, and errors of watch, scale and
 * thermometer. The same generator state gives the same evenings.
 */
export function simulateEvenings(world: World, random: Pcg32): DemoSubmission[] {
  const pilotEffect = new Map(
    world.people.map(({ name }) => [name, normal(random, world.truth.scatter.pilot)]),
  )
  const wingOf = new Map(world.people.map((pilot) => [pilot.name, trueWing(world, pilot, random)]))
  const flown = schedule(world.people).map((pilot, index) => {
    const drawn = trueSession(world, pilot, random)
    const logEffect = pilotEffect.get(pilot.name)! + normal(random, world.truth.scatter.session)
    const session = { ...drawn, logEffect, wing: wingOf.get(pilot.name)! }
    return { session, submission: flySession(world, session, { random, index }) }
  })
  return addGroundRuns(world, flown, random)
}

/** Some evenings begin on the ground, with a pull and a sound meter. */
function addGroundRuns(
  world: World,
  flown: readonly { readonly session: TrueSession; readonly submission: DemoSubmission }[],
  random: Pcg32,
): DemoSubmission[] {
  const gearOf = new Map(world.people.map(({ name }) => [name, groundGear(world, random)]))
  return flown.map(({ session, submission }) => {
    const evening = groundEvening(world, random)
    if (evening === null) return submission
    const gear = gearOf.get(submission.pilot)!
    const entries = submission.body.entries.map((entry) => {
      const { setup } = entry
      const added = groundRuns(world, { session, setup, gear, ...evening }, random)
      return { ...entry, runs: [...entry.runs, ...added] }
    })
    return { ...submission, body: { ...submission.body, entries } }
  })
}

/** Who flies when: everybody in turn, the dealer once, until the evenings are used up. */
function schedule(people: readonly WorldPilot[]): WorldPilot[] {
  const evenings: WorldPilot[] = []
  for (let round = 0; evenings.length < SESSIONS; round++) {
    for (const pilot of people) {
      const done =
        pilot.interest === 'dealer' ? round > 0 : pilot.setups.includes(LONELY) && round > 1
      if (!done && evenings.length < SESSIONS) evenings.push(pilot)
    }
  }
  return evenings
}

/** The wing as it really is: less glide than the catalogue says, and not quite its trim speed. */
function trueWing(world: World, pilot: WorldPilot, random: Pcg32): FlightState['wing'] {
  const { catalogueGlideFactor, trimSpeed } = world.truth.scatter
  const wing = world.catalogue.components[pilot.wing] as unknown as FlightState['wing']
  return {
    flatAreaM2: wing.flatAreaM2,
    glideRatio:
      wing.glideRatio * (catalogueGlideFactor.mean + normal(random, catalogueGlideFactor.sd)),
    trimSpeedMps: wing.trimSpeedMps * Math.exp(normal(random, trimSpeed)),
    trimAtAllUpMassKg: wing.trimAtAllUpMassKg,
  }
}

function trueSession(
  world: World,
  pilot: WorldPilot,
  random: Pcg32,
): Omit<TrueSession, 'logEffect' | 'wing'> {
  const field = world.fields[pilot.field]!
  const [coldest, hottest] = field.temperatureC
  const airMotion = AIR_MOTIONS[random.int(AIR_MOTIONS.length)]!
  return {
    pilot,
    field,
    temperatureC: coldest + (hottest - coldest) * random.uniform(),
    qnhHPa: 1016 + normal(random, 7),
    relativeHumidityPct: 35 + 50 * random.uniform(),
    airMotion,
    airMps: normal(random, world.truth.scatter.sessionAirMps[airMotion]),
  }
}

function flySession(
  world: World,
  session: TrueSession,
  turn: { random: Pcg32; index: number },
): DemoSubmission {
  const { random, index } = turn
  const { scatter } = world.truth
  const { pilot, field } = session
  const setups = random.shuffle([...pilot.setups]).slice(0, 2 + Math.floor(random.uniform() * 1.4))
  const massError = normal(random, scatter.massKg)
  const burns = random.uniform() < 0.6
  const entries = setups.map((setup, order) => {
    const allUpMassKg = trueMass(world, pilot, setup)
    const cell = session.logEffect + normal(random, scatter.cell)
    const flown = { session, setup, allUpMassKg, cell }
    const climbs = Array.from({ length: 2 + random.int(3) }, () => climbRun(world, flown, random))
    if (index === SLIP.session && order === 0) {
      climbs[0] = { ...climbs[0]!, durationS: round(climbs[0]!.durationS * SLIP.factor, 1) }
    }
    const runs = burns ? [...climbs, burnRun(world, flown, random)] : climbs
    return {
      setup,
      allUpMassKg: round(allUpMassKg + massError, 0),
      engineHours: 10 + random.int(200),
      runs,
    }
  })
  return {
    pilot: pilot.name,
    body: {
      flownOn: dateOf(index, random),
      site: { name: field.name, elevationM: field.elevationM },
      conditions: {
        temperatureC: round(session.temperatureC + normal(random, scatter.temperatureC), 1),
        qnhHPa: round(session.qnhHPa + normal(random, scatter.qnhHPa), 0),
        relativeHumidityPct: round(session.relativeHumidityPct, 0),
        windMps: round(3 * random.uniform(), 1),
        airMotion: session.airMotion,
      },
      pilot: { massKg: pilot.massKg },
      wing: statedWing(world, pilot),
      interest: pilot.interest ?? 'none',
      entries,
    },
  }
}

/** What the pilot knows of the wing: the maker's figures. */
function statedWing(world: World, pilot: WorldPilot): object {
  const { flatAreaM2, glideRatio, trimSpeedMps, trimAtAllUpMassKg } =
    world.catalogue.components[pilot.wing]!
  return { flatAreaM2, glideRatio, glideSource: 'catalogue', trimSpeedMps, trimAtAllUpMassKg }
}

function trueMass(world: World, pilot: WorldPilot, setup: string): number {
  const [powerplant, propeller, frame] = world.catalogue.setups[setup]!
  const parts = [powerplant, propeller, frame].map((key) =>
    Number(world.catalogue.components[key]!.massKg),
  )
  return (
    pilot.massKg +
    (pilot.passengerKg ?? 0) * 1.1 +
    GEAR_KG +
    parts.reduce((sum, mass) => sum + mass, 0)
  )
}

/** Evenings from April 2025 on, about a week apart. */
function dateOf(index: number, random: Pcg32): string {
  const day = Date.UTC(2025, 3, 5) + (index * 6.8 + random.int(5)) * 86_400_000
  return new Date(day).toISOString().slice(0, 10)
}
