import { describe, expect, it } from 'vitest'

import { RHO0 } from '../../../src/core/atmosphere/constants.ts'
import { moistAir } from '../../../src/core/normalise/model/air.ts'
import { barometricGainRatio } from '../../../src/core/normalise/model/barometric-gain.ts'
import { discAreaM2 } from '../../../src/core/normalise/model/induced-power.ts'
import { levelPowerW } from '../../../src/core/normalise/model/level-power.ts'
import { glideRatioOf } from '../../../src/core/normalise/model/same-wing.ts'
import { levelTrimSpeedMps } from '../../../src/core/normalise/model/trim-speed.ts'
import { normaliseRun } from '../../../src/core/normalise/run.ts'
import { normaliseSubmission } from '../../../src/core/normalise/submission.ts'
import type {
  ClimbRun,
  FlightSession,
  FuelBurnRun,
  LevelSpeedRun,
  RunOutcome,
  SinkRun,
  SubmittedEntry,
} from '../../../src/core/normalise/types.ts'
import { Pcg32 } from '../../../src/core/random/pcg32.ts'
import { SCENARIO_A } from './scenario-a.ts'

const { equipment } = SCENARIO_A
const session: FlightSession = {
  site: { elevationM: 212 },
  conditions: { temperatureC: 14.5, qnhHPa: 1018, relativeHumidityPct: 62, airMotion: 'calm' },
  pilot: { massKg: 82 },
  wing: {
    flatAreaM2: 24,
    glideRatio: 9,
    glideSource: 'catalogue',
    trimSpeedMps: 10.5,
    trimAtAllUpMassKg: 120,
  },
}
const climb: ClimbRun = {
  kind: 'climb',
  heightGainM: 100,
  durationS: 40,
  heightSource: 'barometric',
  startHeightAboveSiteM: 150,
}
const burn = {
  kind: 'fuelBurn',
  volumeMl: 500,
  durationS: 552,
  heightAboveSiteM: 200,
  heightChangeM: 0,
  fuelTemperatureC: 15,
} as const
const sink: SinkRun = {
  kind: 'sink',
  heightLossM: 100,
  durationS: 65,
  heightSource: 'barometric',
  startHeightAboveSiteM: 300,
}
const legs: LevelSpeedRun = {
  kind: 'levelSpeed',
  heightAboveSiteM: 200,
  legs: [
    { trackDeg: 12, groundSpeedMps: 11.1 },
    { trackDeg: 131, groundSpeedMps: 9.4 },
    { trackDeg: 250, groundSpeedMps: 11.9 },
  ],
}

const entryOf = (...runs: SubmittedEntry['runs']): SubmittedEntry => ({
  entry: { allUpMassKg: 121, massSource: 'weighed' },
  equipment,
  runs,
})

function normalised(given: FlightSession, ...entries: SubmittedEntry[]): RunOutcome[][] {
  const { outcomes, refusals } = normaliseSubmission(given, entries)
  expect(refusals).toEqual([])
  return outcomes!.map((runs) => [...runs])
}

const codes = ({ warnings }: RunOutcome) =>
  warnings.map(({ pointer, code }) => `${pointer} ${code}`)
/** u(ln P) or u(ln ff), from all causes. */
const wholeU = ({ evidence }: RunOutcome) =>
  Math.hypot(
    evidence!.ownStandardUncertainty,
    evidence!.sharedStandardUncertainty,
    ...evidence!.systematic.map(({ effect }) => effect),
  )

describe('a sink run', () => {
  const outcome = normaliseRun({ session, entry: entryOf().entry, equipment, run: sink })

  it('gives sink rate at the reference state and glide ratio, and no evidence on the set-up', () => {
    // By hand from the formulas, sections c, d.1 and d.8: same wing, speed along the path.
    const air = moistAir(
      101_325 * ((101_800 / 101_325) ** (1 / 5.25588) - (0.0065 * 462) / 288.15) ** 5.25588,
      273.15 + 14.5 - 0.0065 * 250,
      0.62,
    )
    const sinkRate = (100 / 65) * barometricGainRatio(air.virtualTemperatureK, air.pressurePa)
    const level = levelTrimSpeedMps({ speedMps: 10.5, atAllUpMassKg: 120 }, 121, air.densityKgPerM3)
    let airspeed = level
    for (let i = 0; i < 50; i++) {
      airspeed = level * Math.sqrt(Math.sqrt(1 - (sinkRate / airspeed) ** 2))
    }
    const { normalized, evidence } = outcome
    expect(normalized.metric).toBe('sinkRate')
    expect(normalized.value).toBeCloseTo(
      sinkRate * Math.sqrt((120 / 121) * (air.densityKgPerM3 / RHO0)),
      4,
    )
    expect(normalized.glideRatio).toBeCloseTo(Math.sqrt((airspeed / sinkRate) ** 2 - 1), 3)
    expect(evidence).toBeNull()
  })

  it('is as sure of the glide ratio as of air, trim speed, height and time', () => {
    const { glideRatio, glideRatioStandardUncertainty, value, budget } = outcome.normalized
    // u(G)/G ≈ √[(u(w)/Vs)² + 4 %² + (0.71/100)² + (0.1/65)²], times 1 + 1/G² for the slope.
    const expected = Math.hypot(0.1 / value, 0.04, 0.0071, 0.0015) * (1 + 1 / glideRatio! ** 2)
    expect(glideRatioStandardUncertainty! / glideRatio! / expected).toBeCloseTo(1, 1)
    expect(budget[0]!.source).toBe('vertical air motion in this run')
    expect(budget.map((line) => line.source)).not.toContain('trim speed')
    expect(budget.reduce((sum, line) => sum + line.share, 0)).toBeCloseTo(1, 12)
  })

  it('sinks more slowly in warm air than its altimeter says it does, as climbs do', () => {
    const value = (temperatureC: number) =>
      normaliseRun({
        session: { ...session, conditions: { ...session.conditions, temperatureC } },
        entry: entryOf().entry,
        equipment,
        run: sink,
      }).normalized.glideRatio!
    // The true loss is the larger in warm air, so the glide the flatter in cold air.
    expect(value(0)).toBeGreaterThan(value(30))
  })
})

describe('a session with sink runs', () => {
  const three = [sink, { ...sink, durationS: 66 }, { ...sink, durationS: 64 }]
  const [catalogue] = normalised(session, entryOf(climb, burn))
  const [own] = normalised(session, entryOf(climb, burn, ...three))

  it('uses their glide ratio for its climbs and burns and says so', () => {
    expect(codes(catalogue![0]!)).toEqual(['/wing/glideRatio glideCatalogue'])
    expect(codes(own![0]!)).toEqual(['/wing/glideRatio glideFromSink'])
    expect(codes(own![1]!)).toEqual(['/wing/glideRatio glideFromSink'])
    expect(codes(own![2]!)).toEqual([])
    const sources = own![0]!.normalized.budget.map(({ source }) => source)
    expect(sources).toContain('glide ratio from the sink runs')
    expect(sources).not.toContain('glide ratio')
  })

  it('is surer of climb and burn than with the catalogue', () => {
    for (const run of [0, 1]) {
      expect(own![run]!.normalized.standardUncertainty).toBeLessThan(
        0.9 * catalogue![run]!.normalized.standardUncertainty,
      )
      expect(wholeU(own![run]!)).toBeLessThan(0.9 * wholeU(catalogue![run]!))
    }
  })

  it('is free of the error of the catalogue', () => {
    const glideRatio = own![2]!.normalized.glideRatio!
    // What a perfect catalogue would have given: the value below is that of the flown glide ratio.
    const wing = { ...session.wing, glideRatio, glideSource: 'measured' } as const
    const [told] = normalised({ ...session, wing }, entryOf(climb))
    const of = (outcome: RunOutcome) => outcome.normalized.inducedPowerW!
    expect(Math.abs(of(own![0]!) / of(told![0]!) - 1)).toBeLessThan(0.002)
    expect(Math.abs(of(catalogue![0]!) / of(told![0]!) - 1)).toBeGreaterThan(0.02)
    const wrong = { ...session.wing, glideRatio: 11 }
    const [otherwise] = normalised({ ...session, wing: wrong }, entryOf(climb, burn, ...three))
    expect(of(otherwise![0]!)).toBe(of(own![0]!))
  })

  it('carries no error of the drag allowance that all pilots share', () => {
    const everyone = (outcome: RunOutcome) =>
      outcome.evidence!.systematic.filter(
        ({ reach, cause }) => reach === 'everyone' && cause === 'glide ratio',
      )
    expect(everyone(catalogue![0]!)).toHaveLength(1)
    expect(everyone(own![0]!)).toHaveLength(0)
  })

  it('keeps the stated glide ratio where one sink run in moving air is less certain', () => {
    const moving = {
      ...session,
      conditions: { ...session.conditions, airMotion: 'active' },
    } as const
    const [outcomes] = normalised(moving, entryOf(climb, sink))
    expect(codes(outcomes![0]!)).toEqual([
      '/wing/glideRatio glideCatalogue',
      '/wing/glideRatio glideKept',
    ])
    const [without] = normalised(moving, entryOf(climb))
    expect(outcomes![0]!.normalized.value).toBe(without![0]!.normalized.value)
  })

  it('uses the sink runs of one entry for the others, in whatever order they come', () => {
    const [ahead] = normalised(session, entryOf(climb), entryOf(...three))
    const [, behind] = normalised(session, entryOf(...three), entryOf(climb))
    expect(ahead![0]!.normalized.value).toBe(behind![0]!.normalized.value)
    expect(codes(ahead![0]!)).toEqual(['/wing/glideRatio glideFromSink'])
  })

  it('weighs each sink run by its own uncertainty', () => {
    const sure = { ...sink, durationS: 60, uncertainty: { heightLossM: 0.5 } }
    const unsure = { ...sink, durationS: 70, uncertainty: { heightLossM: 30 } }
    const power = (...runs: SinkRun[]) =>
      normalised(session, entryOf(climb, ...runs))[0]![0]!.normalized.inducedPowerW!
    const mixed = power(sure, unsure)
    expect(Math.abs(mixed - power(sure))).toBeLessThan(0.1 * Math.abs(mixed - power(sink)))
  })

  it('finds a stated glide ratio that it contradicts', () => {
    const wing = { ...session.wing, glideRatio: 11.5, glideSource: 'measured' } as const
    const [outcomes] = normalised(
      { ...session, wing },
      entryOf(climb, ...three, ...three, ...three),
    )
    expect(codes(outcomes![0]!)).toContain('/wing/glideRatio glideDisagrees')
  })

  it('finds sink runs that contradict one another', () => {
    const { warnings } = normaliseSubmission(session, [entryOf(sink, { ...sink, durationS: 90 })])
    expect(warnings.map(({ code }) => code)).toContain('repeatsDisagree')
  })
})

describe('a session with level legs', () => {
  it('uses their airspeed as trim speed, for sink runs too', () => {
    const [outcomes] = normalised(session, entryOf(climb, sink, legs))
    expect(codes(outcomes![0]!)).toContain('/wing/trimSpeedMps trimSpeedFromLegs')
    expect(codes(outcomes![1]!)).toEqual(['/wing/trimSpeedMps trimSpeedFromLegs'])
    expect(codes(outcomes![2]!)).toEqual([])
    const { trueAirspeedMps, value, windMps } = outcomes![2]!.normalized
    // 412 m and 121 kg: √(121/120)·√(1.225/1.177), 2.4 %, faster than at sea level and 120 kg.
    expect(Math.abs(trueAirspeedMps! / value - 1.0245)).toBeLessThan(0.002)
    expect(windMps!).toBeGreaterThan(0)
    const [stated] = normalised(
      { ...session, wing: { ...session.wing, trimSpeedMps: value, trimAtAllUpMassKg: 120 } },
      entryOf(sink),
    )
    expect(outcomes![1]!.normalized.glideRatio!).toBeCloseTo(stated![0]!.normalized.glideRatio!, 9)
    expect(outcomes![1]!.normalized.glideRatioStandardUncertainty!).toBeLessThan(
      stated![0]!.normalized.glideRatioStandardUncertainty!,
    )
  })

  it('gives trim speed and glide ratio to a wing of which neither was known', () => {
    const [outcomes] = normalised(
      { ...session, wing: { flatAreaM2: 24 } },
      entryOf(climb, sink, legs),
    )
    expect(codes(outcomes![0]!)).toEqual([
      '/wing/trimSpeedMps trimSpeedFromLegs',
      '/wing/glideRatio glideFromSink',
    ])
  })

  it('keeps a trim speed that was stated as more certain', () => {
    const wing = { ...session.wing, uncertainty: { trimSpeedMps: 0.1 } }
    const [outcomes] = normalised({ ...session, wing }, entryOf(climb, legs))
    expect(codes(outcomes![0]!)).toContain('/wing/trimSpeedMps trimSpeedKept')
    const [without] = normalised({ ...session, wing }, entryOf(climb))
    expect(outcomes![0]!.normalized.value).toBe(without![0]!.normalized.value)
  })

  it('leaves the trim speed alone when flown faster or slower', () => {
    const [outcomes] = normalised(session, entryOf(climb, { ...legs, atTrim: false }))
    expect(codes(outcomes![0]!)).toEqual(['/wing/glideRatio glideCatalogue'])
    expect(outcomes![1]!.normalized.atTrim).toBe(false)
  })

  it('finds a stated trim speed that it contradicts', () => {
    const wing = { ...session.wing, trimSpeedMps: 14.5 }
    const [outcomes] = normalised({ ...session, wing }, entryOf(climb, legs))
    expect(codes(outcomes![0]!)).toContain('/wing/trimSpeedMps trimSpeedDisagrees')
  })

  it('assumes the height of the run where none is given, and says so', () => {
    const { heightAboveSiteM: _, ...bare } = legs
    const [outcomes] = normalised(session, entryOf(bare))
    expect(codes(outcomes![0]!)).toEqual(['/entries/0/runs/0/heightAboveSiteM heightAssumed'])
  })

  it('is the surer the more legs there are, and less sure where they scatter', () => {
    const ratio = (run: LevelSpeedRun) => {
      const [[outcome]] = normalised(session, entryOf(run)) as [RunOutcome[]]
      return outcome!.normalized.standardUncertainty
    }
    const around = (scatter: number): LevelSpeedRun => ({
      ...legs,
      legs: [0, 60, 120, 180, 240, 300].map((trackDeg, i) => ({
        trackDeg,
        groundSpeedMps: 10.8 + scatter * (i % 2 === 0 ? 1 : -1) * (i < 3 ? 1 : 0.5),
      })),
    })
    // Three legs: √(0.15²/3 + 0.3²) = 0.31 m/s, at the reference state 2 % less; six: √2 less.
    expect(ratio(legs)).toBeGreaterThan(0.3)
    expect(ratio(legs)).toBeLessThan(0.34)
    expect(ratio(around(0))).toBeLessThan(0.75 * ratio(legs))
    expect(ratio(around(1.4))).toBeGreaterThan(1.5 * ratio(around(0)))
  })
})

// The example of METHOD.md, section d: 120 kg, 1.25 m, 10.5 m/s and a sink of 1.5 m/s, trim speed 10 % off.
it('spoils glide ratio and speed together when the trim speed is wrong', () => {
  const power = (airspeedMps: number, glideRatio: number) =>
    levelPowerW({
      allUpMassKg: 120,
      glideRatio,
      airspeedMps,
      densityKgPerM3: RHO0,
      discAreaM2: discAreaM2(1.25),
    })
  const change = (up: number, down: number) => Math.abs(Math.log(up / down)) / 2
  const glide = (airspeedMps: number) => glideRatioOf(airspeedMps, 1.5)
  const linked = change(power(11.55, glide(11.55)), power(9.45, glide(9.45)))
  const bySpeed = change(power(11.55, glide(10.5)), power(9.45, glide(10.5)))
  const byGlide = change(power(10.5, 1.1 * glide(10.5)), power(10.5, 0.9 * glide(10.5)))
  expect(glide(10.5)).toBeCloseTo(6.93, 2)
  expect(linked).toBeCloseTo(0.07, 2)
  expect(Math.hypot(bySpeed, byGlide)).toBeCloseTo(0.13, 2)
})

// The whole chain, raw readings in: what the budgets carry as covariances is drawn here for real, every
// shared error once per session and every other anew in each run. Model errors, which no reading shows,
// are left out on both sides. 3000 draws: standard error of a standard deviation 1.3 %; the models are
// bent by errors of this size, so 6 % are allowed.
describe('the uncertainty of a run that leans on own sink runs', () => {
  const UNSEEN = [
    'thrust from climb',
    'full-throttle power in this air',
    'temperature between field and run',
    'propeller diameter',
    'expansion of the fuel',
    'speed and bank held by hand',
    'engine at part load',
    'mixture in thin air',
  ]
  const TRIM_U = 1
  const wing = { ...session.wing, uncertainty: { trimSpeedMps: TRIM_U } }
  const sinks = [sink, { ...sink, durationS: 66 }]
  const calm = Math.sqrt(0.1 ** 2 - 0.05 ** 2)

  /** One draw of every error of a session; a call of `normal` is a new error. */
  interface Draws {
    readonly normal: () => number
    /** Vertical air motion that lasts all session [m/s]. */
    readonly airMps: number
  }

  const climbed = ({ normal, airMps }: Draws): ClimbRun => ({
    ...climb,
    heightGainM: climb.heightGainM + 0.71 * normal() + (calm * normal() + airMps) * climb.durationS,
    durationS: climb.durationS + 0.1 * normal(),
  })
  const burned = ({ normal, airMps }: Draws): FuelBurnRun => ({
    ...burn,
    volumeMl: burn.volumeMl * (1 + 0.01 * normal()),
    durationS: burn.durationS + Math.hypot(2, 0.1) * normal(),
    heightChangeM: 3 * normal() + airMps * burn.durationS,
    fuelTemperatureC: 15 + 5 * normal(),
  })
  const sunk = ({ normal, airMps }: Draws): SinkRun[] =>
    sinks.map((run) => ({
      ...run,
      heightLossM: run.heightLossM + 0.71 * normal() - (calm * normal() + airMps) * run.durationS,
      durationS: run.durationS + 0.1 * normal(),
    }))

  /** Standard deviation of the evidence of a run over 3000 sessions drawn anew. */
  function spread(drawnRun: (draws: Draws) => ClimbRun | FuelBurnRun): number {
    const random = new Pcg32(20_260_517)
    const normal = () => random.normal()
    const logs: number[] = []
    for (let i = 0; i < 3000; i++) {
      const draws = { normal, airMps: 0.05 * normal() }
      const drawn: FlightSession = {
        ...session,
        conditions: {
          ...session.conditions,
          temperatureC: 14.5 + 1.5 * normal(),
          qnhHPa: 1018 + 2 * normal(),
          relativeHumidityPct: Math.min(100, Math.max(0, 62 + 15 * normal())),
        },
        wing: { ...wing, trimSpeedMps: 10.5 + TRIM_U * normal() },
      }
      const entry = { allUpMassKg: 121 + 2 * normal(), massSource: 'weighed' } as const
      const runs = [drawnRun(draws), ...sunk(draws)]
      const { outcomes } = normaliseSubmission(drawn, [{ entry, equipment, runs }])
      if (outcomes !== null) logs.push(outcomes[0]![0]!.evidence!.logValue)
    }
    expect(logs.length).toBeGreaterThan(2900)
    const mean = logs.reduce((sum, x) => sum + x, 0) / logs.length
    return Math.sqrt(logs.reduce((sum, x) => sum + (x - mean) ** 2, 0) / (logs.length - 1))
  }

  /** u of the evidence as the result says it, less what no reading shows. */
  function claimed({ normalized, evidence }: RunOutcome): number {
    const { budget, standardUncertainty } = normalized
    const unseen = budget
      .filter(({ source }) => UNSEEN.includes(source))
      .reduce((sum, line) => sum + line.share, 0)
    expect(standardUncertainty).toBeGreaterThan(0)
    return wholeU({ normalized, evidence, warnings: [] }) * Math.sqrt(1 - unseen)
  }

  const outcomeOf = (given: FlightSession, ...runs: SubmittedEntry['runs']) =>
    normalised(given, entryOf(...runs))[0]![0]!

  /** The same figures as stated ones, their errors taken for independent. */
  const told = (): FlightSession => {
    const { glideRatio, glideRatioStandardUncertainty: u } = normalised(
      { ...session, wing },
      entryOf(sinks[0]!),
    )[0]![0]!.normalized
    const uncertainty = { ...wing.uncertainty, glideRatio: u! }
    const known = {
      ...wing,
      glideRatio: glideRatio!,
      glideSource: 'measured' as const,
      uncertainty,
    }
    return { ...session, wing: known }
  }

  it('is for a climb what drawing all its readings gives', () => {
    const leaning = outcomeOf({ ...session, wing }, climb, ...sinks)
    expect(Math.abs(claimed(leaning) / spread(climbed) - 1)).toBeLessThan(0.06)
  })

  it('is for a burn what drawing all its readings gives', () => {
    const leaning = outcomeOf({ ...session, wing }, burn, ...sinks)
    expect(Math.abs(claimed(leaning) / spread(burned) - 1)).toBeLessThan(0.06)
  })

  it('would be half as large again for a burn if trim speed and glide ratio counted as independent', () => {
    const leaning = outcomeOf({ ...session, wing }, burn, sinks[0]!)
    expect(claimed(outcomeOf(told(), burn))).toBeGreaterThan(1.5 * claimed(leaning))
  })
})
