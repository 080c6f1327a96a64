/**
 * What makes a flown figure differ from the truth. Each can be switched off, alone or by group, to
 * see what it does; the random numbers of all others stay the same.
 *
 * Off means: as the service's normalisation assumes (`engine`, `propeller`, `fuel`, `lapse`, `glide`
 * at its factor 0.85 …) or without error (readings).
 */
export const SOURCES = {
  /** True system glide differs from 0.85 of the catalogue's: a part common to all wings. */
  glideCommon: 'wings',
  /** The same, a part of each wing and pilot. */
  glideOwn: 'wings',
  /** True trim speed differs from the stated one. */
  trim: 'wings',
  /** Thrust line inclined to the path, and the shift of the trim with thrust. */
  thrustLine: 'wings',
  /** A standing propeller brakes the glide with the engine off. */
  standing: 'wings',
  /** Frames differ in drag, which the service counts as the setup's doing. */
  frame: 'wings',
  /** Power follows the air by indicated torque, friction and mixture, each engine in its own way. */
  engine: 'propulsion',
  /** Thrust and torque coefficients follow the advance ratio; the rpm from the balance of torques. */
  propeller: 'propulsion',
  /** Flow from a Willans line with friction and mixture instead of in proportion to induced power. */
  fuel: 'propulsion',
  /** A setup's power and flow on the day. */
  day: 'propulsion',
  /** True lapse rate and moist air that is well mixed with height. */
  lapse: 'weather',
  /** Readings of temperature, altimeter setting and humidity. */
  weather: 'weather',
  /** Vertical air per session and per run. */
  air: 'air',
  /** The pilot's word for the vertical air is not always the right one. */
  words: 'air',
  /** All-up mass: scale, guess, clothing, fuel on board. */
  mass: 'readings',
  /** Height gain: noise, scale, satellite error, display. */
  height: 'readings',
  /** Stopwatch, its display, and the instant of starvation. */
  watch: 'readings',
  /** Fuel volume and fuel temperature. */
  volume: 'readings',
  /** Speed and bank held by hand during a burn. */
  handling: 'readings',
  /**
   * Every pilot's own specimen of engine and propeller, the same in all sessions. Off unless asked
   * for: the service's model has no such effect, so it is a stress beyond its assumptions.
   */
  specimen: 'stress',
} as const satisfies Readonly<Record<string, string>>

export type Source = keyof typeof SOURCES

/** Which sources are on. */
export type Switches = Readonly<Record<Source, boolean>>

const NAMES = Object.keys(SOURCES) as Source[]

/**
 * Sources by their names or the names of their groups.
 *
 * @throws {Error} for a name that is neither
 */
export function sourcesNamed(names: readonly string[]): Source[] {
  return names.flatMap((name) => {
    const found = NAMES.filter((source) => source === name || SOURCES[source] === name)
    if (found.length === 0) throw new Error(`no source or group is called ${name}`)
    return found
  })
}

/** All sources on save the stress and those left out; those added on in any case. */
export function switches({
  without = [],
  plus = [],
}: {
  readonly without?: readonly Source[]
  readonly plus?: readonly Source[]
} = {}): Switches {
  const on = (name: Source) =>
    plus.includes(name) || (SOURCES[name] !== 'stress' && !without.includes(name))
  return Object.fromEntries(NAMES.map((name) => [name, on(name)])) as Switches
}
