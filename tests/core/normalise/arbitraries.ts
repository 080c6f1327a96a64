import fc from 'fast-check'

import type {
  ClimbRun,
  EnergyUseRun,
  Equipment,
  FlightSession,
  FlownEntry,
  FuelBurnRun,
  LevelSpeedRun,
  Run,
  SinkRun,
  SoundLevelRun,
  StaticPullRun,
  SubmittedEntry,
} from '../../../src/core/normalise/types.ts'
import { DERIVED_LIMITS, FIELD_LIMITS, type Limit } from '../../../src/core/plausibility/limits.ts'

/** Anything the hard limits let pass, bounds included. */
export function within({ hard }: Limit): fc.Arbitrary<number> {
  return fc.double({ min: hard.min, max: hard.max, noNaN: true })
}

const between = (min: number, max: number) => fc.double({ min, max, noNaN: true })
const maybe = <T>(arbitrary: fc.Arbitrary<T>) => fc.option(arbitrary, { nil: undefined })
/** Seldom, because what follows from it is mostly refused. */
const seldom = <T>(arbitrary: fc.Arbitrary<T>) =>
  fc.oneof({ arbitrary, weight: 1 }, { arbitrary: fc.constant(undefined), weight: 4 })
const limits = FIELD_LIMITS

export const hardSession: fc.Arbitrary<FlightSession> = fc.record({
  site: fc.record({ elevationM: within(limits.elevationM) }),
  conditions: fc.record({
    temperatureC: within(limits.temperatureC),
    qnhHPa: maybe(within(limits.qnhHPa)),
    stationPressureHPa: maybe(within(limits.stationPressureHPa)),
    relativeHumidityPct: maybe(within(limits.relativeHumidityPct)),
    airMotion: fc.constantFrom(
      'calm' as const,
      'light' as const,
      'active' as const,
      'thermic' as const,
    ),
  }),
  pilot: fc.record({ massKg: within(limits.massKg) }),
  wing: fc.record({
    flatAreaM2: within(limits.flatAreaM2),
    glideRatio: maybe(within(limits.glideRatio)),
    glideSource: maybe(
      fc.constantFrom('measured' as const, 'catalogue' as const, 'estimated' as const),
    ),
    trimSpeedMps: maybe(within(limits.trimSpeedMps)),
    trimAtAllUpMassKg: maybe(within(limits.trimAtAllUpMassKg)),
  }),
})

const equipment: fc.Arbitrary<Equipment> = fc.record({
  drive: fc.constantFrom('twoStroke' as const, 'fourStroke' as const, 'electric' as const),
  propellerDiameterCm: within(limits.propellerDiameterCm),
  reductionRatio: seldom(within(limits.reductionRatio)),
  ratedPowerKw: seldom(within(limits.ratedPowerKw)),
})

const heightSource = fc.constantFrom(
  'barometric' as const,
  'barometricTemperatureCompensated' as const,
  'gnss' as const,
  'unknown' as const,
)

const hardClimb: fc.Arbitrary<ClimbRun> = fc.record({
  kind: fc.constant('climb' as const),
  heightGainM: within(limits.heightGainM),
  durationS: within(limits.climbDurationS),
  heightSource,
  startHeightAboveSiteM: within(limits.startHeightAboveSiteM),
  rpm: maybe(within(limits.rpm)),
})

const hardBurn: fc.Arbitrary<FuelBurnRun> = fc.record({
  kind: fc.constant('fuelBurn' as const),
  volumeMl: within(limits.volumeMl),
  durationS: within(limits.burnDurationS),
  heightAboveSiteM: within(limits.heightAboveSiteM),
  heightChangeM: within(limits.heightChangeM),
  fuelTemperatureC: maybe(within(limits.fuelTemperatureC)),
  rpm: maybe(within(limits.rpm)),
  method: maybe(fc.constantFrom('measuredTank' as const, 'refill' as const)),
})

const hardEnergy: fc.Arbitrary<EnergyUseRun> = fc.record({
  kind: fc.constant('energyUse' as const),
  energyWh: within(limits.energyWh),
  durationS: within(limits.energyDurationS),
  heightAboveSiteM: within(limits.heightAboveSiteM),
  heightChangeM: within(limits.heightChangeM),
  batteryStartV: within(limits.batteryV),
  batteryEndV: within(limits.batteryV),
  rpm: maybe(within(limits.rpm)),
})

const hardPull: fc.Arbitrary<StaticPullRun> = fc.record({
  kind: fc.constant('staticPull' as const),
  thrustN: within(limits.thrustN),
  rpm: maybe(within(limits.rpm)),
  headwindMps: maybe(within(limits.headwindMps)),
  lineAngleDeg: maybe(within(limits.lineAngleDeg)),
})

const hardSound: fc.Arbitrary<SoundLevelRun> = fc
  .record({
    kind: fc.constant('soundLevel' as const),
    levelDbA: within(limits.levelDbA),
    backgroundDbA: maybe(within(limits.backgroundDbA)),
    position: fc.constantFrom('pilotEar' as const, 'distance' as const),
    distanceM: within(limits.soundDistanceM),
    power: fc.constantFrom('full' as const, 'level' as const),
    instrument: maybe(fc.constantFrom('class2' as const, 'phone' as const)),
    rpm: maybe(within(limits.rpm)),
  })
  .map((run) => (run.position === 'distance' ? run : { ...run, distanceM: undefined }))

const hardSink: fc.Arbitrary<SinkRun> = fc.record({
  kind: fc.constant('sink' as const),
  heightLossM: within(limits.heightLossM),
  durationS: within(limits.sinkDurationS),
  heightSource,
  startHeightAboveSiteM: within(limits.startHeightAboveSiteM),
})

const anyLegs = fc.array(
  fc.record({
    trackDeg: within(limits.trackDeg),
    groundSpeedMps: within(limits.groundSpeedMps),
  }),
  { minLength: 3, maxLength: 12 },
)

/** Legs as they would be flown, with a little scatter. */
const flownLegs = fc
  .record({
    airspeed: between(6, 20),
    windRatio: between(0, 0.9),
    from: between(0, 2 * Math.PI),
    count: fc.integer({ min: 3, max: 12 }),
    scatter: between(0, 0.5),
  })
  .map(({ airspeed, windRatio, from, count, scatter }) =>
    Array.from({ length: count }, (_, i) => {
      const heading = from + 1 + (2 * Math.PI * i) / count
      const v = airspeed + scatter * Math.sin(7 * i)
      const x = v * Math.sin(heading) + windRatio * airspeed * Math.sin(from)
      const y = v * Math.cos(heading) + windRatio * airspeed * Math.cos(from)
      const trackDeg = ((Math.atan2(x, y) * 180) / Math.PI + 360) % 360
      return { trackDeg, groundSpeedMps: Math.min(40, Math.hypot(x, y)) }
    }),
  )

const hardLevelSpeed: fc.Arbitrary<LevelSpeedRun> = fc.record({
  kind: fc.constant('levelSpeed' as const),
  legs: fc.oneof({ arbitrary: anyLegs, weight: 1 }, { arbitrary: flownLegs, weight: 4 }),
  heightAboveSiteM: maybe(within(limits.heightAboveSiteM)),
  atTrim: maybe(fc.boolean()),
})

const hardRun = fc.oneof(
  hardClimb,
  hardBurn,
  hardEnergy,
  hardPull,
  hardSound,
  hardSink,
  hardLevelSpeed,
)

export const hardEntry: fc.Arbitrary<SubmittedEntry> = fc.record({
  entry: fc.record({
    allUpMassKg: within(limits.allUpMassKg),
    massSource: maybe(fc.constantFrom('weighed' as const, 'estimated' as const)),
  }),
  equipment,
  runs: fc.array(hardRun, { maxLength: 4 }),
})

/** The run with its length or its use at a rate that may occur. */
function atRates(
  run: Run,
  rates: { readonly climbRate: number; readonly sinkRate: number; readonly flow: number },
): Run {
  const { climbRate, sinkRate, flow } = rates
  if (run.kind === 'sink') {
    return { ...run, durationS: clamp(run.heightLossM / sinkRate, limits.sinkDurationS) }
  }
  if (run.kind === 'climb') {
    return { ...run, durationS: clamp(run.heightGainM / climbRate, limits.climbDurationS) }
  }
  if (run.kind === 'fuelBurn') {
    return { ...run, volumeMl: clamp((flow * run.durationS) / 3.6, limits.volumeMl) }
  }
  if (run.kind === 'energyUse') {
    // About 1.3 kW for each litre per hour.
    return { ...run, energyWh: clamp((1300 * flow * run.durationS) / 3600, limits.energyWh) }
  }
  return run
}

const clamp = (value: number, { hard }: Limit) => Math.min(hard.max, Math.max(hard.min, value))

/**
 * One session with one entry, drawn over the hard limits of what follows from the fields too (masses,
 * loading, climb rate, flow), so that a good part of the draws is taken and not refused.
 */
export const hardFlight: fc.Arbitrary<{
  readonly session: FlightSession
  readonly entry: SubmittedEntry
}> = fc
  .record({
    session: hardSession,
    entry: hardEntry,
    beside: within(DERIVED_LIMITS.massBesidePilot),
    loading: within(DERIVED_LIMITS.wingLoading),
    climbRate: between(0.05, 6),
    sinkRate: between(0.7, 2.5),
    flow: between(0.5, 15),
  })
  .map(({ session, entry, beside, loading, climbRate, sinkRate, flow }) => {
    const allUpMassKg = clamp(session.pilot.massKg + beside, limits.allUpMassKg)
    const { stationPressureHPa: _, ...conditions } = session.conditions
    const electric = entry.equipment.drive === 'electric'
    const runs = entry.runs
      .filter((run) => run.kind !== (electric ? 'fuelBurn' : 'energyUse'))
      .map((run) => atRates(run, { climbRate, sinkRate, flow }))
    const flatAreaM2 = clamp(allUpMassKg / loading, limits.flatAreaM2)
    return {
      session: { ...session, conditions, wing: { ...session.wing, flatAreaM2 } },
      entry: { ...entry, entry: { ...entry.entry, allUpMassKg }, runs },
    }
  })

/** Everyday flying, so that nearly every draw is a possible climb and burn. */
export interface Everyday {
  readonly session: FlightSession
  readonly entry: FlownEntry
  readonly equipment: Equipment
  readonly climb: ClimbRun
  readonly burn: FuelBurnRun
}

export const everyday: fc.Arbitrary<Everyday> = fc.record({
  session: fc.record({
    site: fc.record({ elevationM: between(0, 2000) }),
    conditions: fc.record({
      temperatureC: between(-5, 35),
      qnhHPa: between(985, 1035),
      relativeHumidityPct: between(10, 100),
      airMotion: fc.constantFrom('calm' as const, 'light' as const),
    }),
    pilot: fc.record({ massKg: between(60, 100) }),
    wing: fc.record({
      flatAreaM2: between(20, 30),
      glideRatio: between(5.5, 8.5),
      glideSource: fc.constant('measured' as const),
      trimSpeedMps: between(9, 12.5),
      trimAtAllUpMassKg: between(100, 140),
    }),
  }),
  entry: fc.record({ allUpMassKg: between(105, 145), massSource: fc.constant('weighed' as const) }),
  equipment: fc.record({
    drive: fc.constantFrom('twoStroke' as const, 'fourStroke' as const),
    propellerDiameterCm: between(110, 140),
  }),
  climb: fc.record({
    kind: fc.constant('climb' as const),
    // At most 2.7 m/s: 3.3 m/s in thin hot air on a slow, heavily laden wing is steeper than the model reaches.
    heightGainM: between(80, 150),
    durationS: between(55, 120),
    heightSource,
    startHeightAboveSiteM: between(0, 300),
  }),
  burn: fc.record({
    kind: fc.constant('fuelBurn' as const),
    volumeMl: between(300, 1000),
    durationS: between(400, 900),
    heightAboveSiteM: between(50, 400),
    heightChangeM: between(-20, 20),
    fuelTemperatureC: between(0, 35),
  }),
})
