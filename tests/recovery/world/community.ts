import type { FlightSession, Run, SubmittedEntry } from '../../../src/core/normalise/types.ts'
import { Chance, rounded } from './chance.ts'
import { type Day, drawDay } from './day.ts'
import { flyGlides } from './glide.ts'
import { HABITS, type HabitName, type Habits } from './habits.ts'
import { drawPilots, type WorldPilot } from './pilots.ts'
import { type Flown, flyBurn, flyClimb } from './runs.ts'
import { drawSetups, type WorldSetup } from './setups.ts'
import type { Switches } from './sources.ts'

/** A session as it was handed in. */
export interface WorldSubmission {
  readonly id: string
  readonly pilotId: string
  readonly session: FlightSession
  readonly entries: readonly (SubmittedEntry & { readonly setupId: string })[]
}

export interface Community {
  readonly setups: readonly WorldSetup[]
  readonly submissions: readonly WorldSubmission[]
  /** Climbs broken off for want of climb. */
  readonly brokenOff: number
}

/** What the day does to a setup, as standard deviations of the logarithm: plug, mixture, warmth. Judgement. */
const DAY_SD = { thrust: 0.008, flow: 0.015 } as const

/** What a community is drawn by. */
export interface CommunityToDraw {
  readonly seed: number
  readonly pilots: number
  /** How its pilots test; absent: a season as the service asks. */
  readonly habits?: HabitName
  readonly on: Switches
}

/** A community of pilots with what they flew; the same seed, habits and switches give the same. */
export function drawCommunity({
  seed,
  pilots,
  habits: name = 'season',
  on,
}: CommunityToDraw): Community {
  const habits: Habits = HABITS[name]
  const setups = drawSetups(new Chance(seed, 1), on)
  const people = drawPilots(new Chance(seed, 2), { setups, count: pilots, on })
  const chance = new Chance(seed, 3)
  const glideChance = new Chance(seed, 4)
  let brokenOff = 0
  const submissions = people.flatMap((pilot) => {
    const glides = glideChance.chance(habits.gliders)
    return Array.from({ length: chance.integer(...habits.evenings) }, (_, evening) => {
      const flown = flySession(chance, { pilot, evening, habits, on })
      brokenOff += flown.brokenOff
      if (!glides || !flown.day.quiet) return flown.submission
      return withGlides(flown.submission, flyGlides(glideChance, flown.last, on))
    })
  })
  return { setups, submissions, brokenOff }
}

function flySession(
  chance: Chance,
  {
    pilot,
    evening,
    habits,
    on,
  }: {
    readonly pilot: WorldPilot
    readonly evening: number
    readonly habits: Habits
    readonly on: Switches
  },
) {
  const { burnShares, burnSteps } = habits
  const day = drawDay(chance, { elevationM: pilot.elevationM, burnShares }, on)
  const sessionMassErrorKg = chance.normal(pilot.weighs ? 1.2 : 2)
  let brokenOff = 0
  let last: Flown | undefined
  const entries = setupsOf(chance, pilot, evening).map((setup) => {
    const flown = prepare(chance, { pilot, day, setup, on })
    last = flown
    const climbs = Array.from({ length: chance.integer(2, 4) }, () => flyClimb(chance, flown, on))
    const done = climbs.filter((run) => run !== null)
    brokenOff += climbs.length - done.length
    const oneMore = chance.chance(habits.oneMoreBurn) ? 1 : 0
    const burned = Array.from({ length: habits.burns + oneMore }, () =>
      flyBurn(chance, flown, { burnSteps, on }),
    )
    const runs: Run[] = day.burns ? [...done, ...burned] : done
    const entryErrorKg = chance.normal(pilot.weighs ? 0.8 : 2.5)
    const massErrorKg = pilot.massErrorKg + (on.mass ? sessionMassErrorKg + entryErrorKg : 0)
    const allUpMassKg = flown.flyer.allUpMassKg + massErrorKg
    return {
      setupId: setup.id,
      entry: {
        allUpMassKg: on.mass ? rounded(allUpMassKg, 1) : allUpMassKg,
        massSource: pilot.weighs ? ('weighed' as const) : ('estimated' as const),
      },
      equipment: setup.equipment,
      runs,
    }
  })
  const submission: WorldSubmission = {
    id: `${pilot.id}e${evening}`,
    pilotId: pilot.id,
    session: {
      site: { elevationM: pilot.elevationM },
      conditions: day.stated,
      pilot: { massKg: rounded(pilot.massKg, 1) },
      wing: pilot.stated,
    },
    entries: entries.filter(({ runs }) => runs.length > 0),
  }
  return { submission, brokenOff, day, last: last! }
}

/** The glides of an evening belong to the setup flown last. */
function withGlides(submission: WorldSubmission, glides: readonly Run[]): WorldSubmission {
  const { entries } = submission
  const last = entries.at(-1)
  if (last === undefined) return submission
  const longer = { ...last, runs: [...last.runs, ...glides] }
  return { ...submission, entries: [...entries.slice(0, -1), longer] }
}

/** Two or three setups an evening; the first evening has the two that tie the pilots together. */
function setupsOf(chance: Chance, pilot: WorldPilot, evening: number): WorldSetup[] {
  const shuffled = chance.shuffled(pilot.setups)
  const most = chance.chance(0.4) ? 3 : 2
  if (evening > 0) return shuffled.slice(0, most)
  const [first, second, ...others] = pilot.setups
  return chance.shuffled([first!, second!, ...others.slice(0, most - 2)])
}

/** Fuels, dresses and rigs: who flies with what on this day. */
function prepare(
  chance: Chance,
  given: {
    readonly pilot: WorldPilot
    readonly day: Day
    readonly setup: WorldSetup
    readonly on: Switches
  },
): Flown {
  const { pilot, day, setup, on } = given
  const fuelKg = chance.uniform(2.5, 6)
  const thrustDay = Math.exp(chance.normal(DAY_SD.thrust))
  const flowDay = Math.exp(chance.normal(DAY_SD.flow))
  const specimen = pilot.specimen.get(setup.id)!
  return {
    pilot,
    day,
    setup,
    flyer: {
      wing: pilot.wing,
      allUpMassKg: pilot.massKg + pilot.gearKg + setup.massKg + fuelKg,
      addedDragAreaM2: setup.frame.addedDragAreaM2,
      thrustAngleRad: setup.frame.thrustAngleRad + pilot.wing.thrustAngleRad,
    },
    thrustFactor: specimen.thrust * (on.day ? thrustDay : 1),
    flowFactor: specimen.flow * (on.day ? flowDay : 1),
  }
}
