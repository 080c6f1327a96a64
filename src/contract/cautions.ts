/** What everybody is told beside figures that were measured at a running engine, each in one place. */
export const CAUTIONS = {
  fullThrottleClimb:
    'A full-throttle climb is flown into wind, clear of people and obstacles, with height to turn back in.',
  burnToEmpty:
    'A burn to empty ends with the engine out: only where a landing without power is always in reach.',
  batteryToEmpty:
    'A battery flown empty ends with the engine out: land with the reserve its maker asks for, a landing without power always in reach.',
  engineOff:
    'With the engine off it may not start again: only where a landing without power is always in reach.',
  staticPull:
    'For a static pull the frame is tied down, one person holds the stop switch, and nobody stands in the plane of the propeller or in its blast.',
  noise:
    'Noise at full power harms hearing within minutes: wear protection, and keep to the hours and limits of the place.',
  underLoad:
    'Check propeller clearance under load, not at rest: under thrust the propeller moves towards its cage.',
  handsAway:
    'Clearance is measured with the engine stopped and unable to start, under the pull of a hand scale; never reach for a running propeller.',
  deference:
    'Nothing here clears anything to fly. Local rules and codes, the makers’ instructions and licensed practice come first.',
} as const

/** The cautions of each kind of run. */
const OF_RUN: Readonly<Record<string, readonly string[]>> = {
  climb: [CAUTIONS.fullThrottleClimb, CAUTIONS.noise],
  fuelBurn: [CAUTIONS.burnToEmpty],
  energyUse: [CAUTIONS.batteryToEmpty],
  staticPull: [CAUTIONS.staticPull, CAUTIONS.noise],
  soundLevel: [CAUTIONS.noise],
  sink: [CAUTIONS.engineOff],
  levelSpeed: [],
  tipClearance: [CAUTIONS.handsAway, CAUTIONS.underLoad],
}

/**
 * What goes with runs of these kinds, each caution once.
 *
 * @param kinds kinds of run, in any order and number
 * @returns cautions, the general one last
 */
export function cautionsForRuns(kinds: Iterable<string>): string[] {
  const ofRuns = [...kinds].flatMap((kind) => OF_RUN[kind] ?? [])
  return [...new Set(ofRuns), CAUTIONS.deference]
}

/** The caution that comes before every other. */
export function doNotFly(setup: string): string {
  return `Do not fly ${setup}: it was reported unsafe; see its reports.`
}

/** As {@link doNotFly}, of a touch in a body that was worked out and not stored. */
export function touched(setup: string): string {
  return `Do not fly ${setup}: its propeller touched. Nothing was stored: submit it or report it, so that others know.`
}

/** Who stands behind part of the evidence. */
export function interestBehind(setup: string): string {
  return `Part of what is known of ${setup} comes from people with an interest in selling it.`
}
