import { describe, expect, it } from 'vitest'
import { G0 } from '../../src/core/atmosphere/constants.ts'
import { discAreaM2, inducedPowerW } from '../../src/core/normalise/model/induced-power.ts'
import { airAtHeight, REFERENCE_AIR, shownGainM, type TrueColumn } from './world/air.ts'
import { Chance } from './world/chance.ts'
import { drawCommunity } from './world/community.ts'
import { peakPowerRps, seaLevelTorqueNm, torqueNm } from './world/engine.ts'
import { climbAtFullThrottle, flightAtClimbRate } from './world/flight.ts'
import { sinkRateMps } from './world/glide.ts'
import { habitNamed } from './world/habits.ts'
import { fullThrottleRps } from './world/plant.ts'
import { drawSetups } from './world/setups.ts'
import { sourcesNamed, switches } from './world/sources.ts'
import { type Flyer, forcesOn, REFERENCE_WING } from './world/wing.ts'

const setups = [1, 2, 3].flatMap((seed) => drawSetups(new Chance(seed, 1), switches()))
const flyer: Flyer = {
  wing: { ...REFERENCE_WING, liftShift: 0.1 },
  allUpMassKg: 130,
  addedDragAreaM2: 0.02,
  thrustAngleRad: 0.06,
}

describe('a steady climb of the world', () => {
  it.each(setups.map((setup) => [setup.id, setup] as const))(
    'of setup %s balances forces along and across the path',
    (_id, { propulsion }) => {
      const flight = climbAtFullThrottle(flyer, propulsion, { air: REFERENCE_AIR, thrustFactor: 1 })
      const { airspeedMps, thrustN, climbRateMps } = flight
      const { liftN, dragN } = forcesOn(flyer, airspeedMps, { thrustN, air: REFERENCE_AIR })
      const angle = Math.asin(climbRateMps / airspeedMps)
      const weight = flyer.allUpMassKg * G0
      // Newtons out of 1275: the roots are found to eleven digits.
      expect(thrustN * Math.cos(0.06) - dragN - weight * Math.sin(angle)).toBeCloseTo(0, 5)
      expect(liftN + thrustN * Math.sin(0.06) - weight * Math.cos(angle)).toBeCloseTo(0, 5)
    },
  )

  it('at no climb is level flight, with the thrust of its drag', () => {
    const { airspeedMps, thrustN } = flightAtClimbRate(flyer, 0, REFERENCE_AIR)
    const { liftN, dragN } = forcesOn(flyer, airspeedMps, { thrustN, air: REFERENCE_AIR })
    expect(thrustN * Math.cos(0.06)).toBeCloseTo(dragN, 6)
    expect(liftN + thrustN * Math.sin(0.06)).toBeCloseTo(flyer.allUpMassKg * G0, 6)
  })
})

describe('a glide of the world', () => {
  it('sinks as its drag over its lift says, and faster with more drag', () => {
    const clean: Flyer = { ...flyer, addedDragAreaM2: 0, thrustAngleRad: 0 }
    const steady = { ...clean, wing: { ...clean.wing, liftShift: 0 } }
    // 130 kg: 10.5 m/s at 120 kg make 10.93 m/s level, and √cos of 8.1° less on the path.
    const angle = Math.atan(1 / 7)
    const expected = 10.5 * Math.sqrt(130 / 120) * Math.sqrt(Math.cos(angle)) * Math.sin(angle)
    expect(sinkRateMps(steady, REFERENCE_AIR)).toBeCloseTo(expected, 6)
    const braked = sinkRateMps({ ...steady, addedDragAreaM2: 0.03 }, REFERENCE_AIR)
    expect(braked).toBeGreaterThan(expected)
  })
})

describe('an engine of the world', () => {
  it('has its greatest power where its curve says', () => {
    const at = peakPowerRps(ENGINE)
    const power = (rps: number) => rps * seaLevelTorqueNm(ENGINE, rps)
    expect(power(at)).toBeGreaterThan(power(1.01 * at))
    expect(power(at)).toBeGreaterThan(power(0.99 * at))
  })

  it('gives its sea-level torque at sea level, and less in thin or warm air', () => {
    expect(torqueNm(ENGINE, 130, REFERENCE_AIR)).toBeCloseTo(seaLevelTorqueNm(ENGINE, 130), 10)
    const warm = { ...REFERENCE_AIR, temperatureK: 305, densityKgPerM3: 1.157 }
    const thin = { ...REFERENCE_AIR, pressurePa: 90_000, densityKgPerM3: 1.088 }
    expect(torqueNm(ENGINE, 130, warm)).toBeLessThan(seaLevelTorqueNm(ENGINE, 130))
    expect(torqueNm(ENGINE, 130, thin)).toBeLessThan(torqueNm(ENGINE, 130, warm))
  })

  it('turns its propeller where both torques meet', () => {
    const plant = { engine: ENGINE, propeller: PROPELLER, reduction: 2.7, gearEfficiency: 0.96 }
    const rps = fullThrottleRps(plant, { airspeedMps: 0, air: REFERENCE_AIR })
    const asked = PROPELLER.staticTorque * REFERENCE_AIR.densityKgPerM3 * rps ** 2 * 1.25 ** 5
    expect(torqueNm(ENGINE, 2.7 * rps, REFERENCE_AIR) * 2.7 * 0.96).toBeCloseTo(asked, 6)
  })
})

const ENGINE = {
  stroke: 'twoStroke',
  peakTorqueNm: 14,
  peakTorqueRps: 130,
  riseCurvature: 1.6,
  fallCurvature: 5,
  frictionShare: 0.13,
  temperatureExponent: 0.5,
  richness: 1.16,
  mixtureExponent: 0.4,
  indicatedEfficiency: 0.19,
  pumpingShare: 0.3,
  loadEnrichment: 0.05,
} as const

const PROPELLER = {
  diameterM: 1.25,
  staticThrust: 0.08,
  staticTorque: 0.0043,
  zeroThrustAdvance: 0.68,
  thrustLinear: 0.5,
  torqueRise: 0.1,
  torqueLeft: 0.3,
}

describe('the setups of the world', () => {
  it('lie in the usual range of climb and consumption', () => {
    for (const { truth } of setups) {
      expect(truth.climbRateMps).toBeGreaterThan(1.3)
      expect(truth.climbRateMps).toBeLessThan(4)
      expect(truth.fuelFlowLPerH).toBeGreaterThan(1.3)
      expect(truth.fuelFlowLPerH).toBeLessThan(4)
    }
  })

  it('turn 60 to 92 % of the shaft power into thrust times flow: momentum theory allows less than all', () => {
    for (const { propulsion, equipment, plant } of setups) {
      const areaM2 = discAreaM2(equipment.propellerDiameterCm / 100)
      const disc = { densityKgPerM3: REFERENCE_AIR.densityKgPerM3, areaM2 }
      const thrustN = propulsion.thrustN(10, REFERENCE_AIR)
      const rps = fullThrottleRps(plant, { airspeedMps: 10, air: REFERENCE_AIR }) * plant.reduction
      const shaftW = 2 * Math.PI * rps * torqueNm(plant.engine, rps, REFERENCE_AIR)
      const share = inducedPowerW(thrustN, 10, disc) / shaftW
      expect(share).toBeGreaterThan(0.6)
      expect(share).toBeLessThan(0.92)
    }
  })

  it('differ by less than two percent and by more than forty within a community', () => {
    const community = setups.slice(0, 12)
    const apart = community.flatMap((a, i) =>
      community
        .slice(i + 1)
        .map((b) => Math.abs(Math.log(a.truth.climbRateMps / b.truth.climbRateMps))),
    )
    expect(Math.min(...apart)).toBeLessThan(Math.log(1.02))
    expect(Math.max(...apart)).toBeGreaterThan(Math.log(1.4))
  })
})

describe('the air of the world', () => {
  const column: TrueColumn = {
    elevationM: 0,
    fieldTemperatureK: 288.15,
    fieldPressurePa: 101_325,
    relativeHumidity: 0,
    lapseKPerM: 0.0065,
  }

  it('is the standard atmosphere where it is dry and standard', () => {
    const { pressurePa, densityKgPerM3 } = airAtHeight(column, 1000)
    // ISO 2533, 1000 m geopotential: 898.746 hPa, 1.1116 kg/m³ (from memory).
    expect(pressurePa).toBeCloseTo(89_874.6, 0)
    expect(densityKgPerM3).toBeCloseTo(1.1116, 4)
    expect(shownGainM(column, 100, 300)).toBeCloseTo(200, 6)
  })

  it('is thicker than an altimeter shows where it is warm', () => {
    const warm = { ...column, fieldTemperatureK: 303.15 }
    expect(shownGainM(warm, 0, 100)).toBeLessThan(96)
  })
})

describe('a community', () => {
  it('is the same for the same seed', () => {
    const draw = () => drawCommunity({ seed: 5, pilots: 12, on: switches() }).submissions
    expect(draw()).toEqual(draw())
  })

  it('keeps all other draws where one source is switched off', () => {
    const draw = (without: string[]) =>
      drawCommunity({ seed: 5, pilots: 12, on: switches({ without: sourcesNamed(without) }) })
    const readings = (without: string[]) =>
      draw(without).submissions.flatMap(({ entries }) =>
        entries.flatMap(({ runs }) =>
          runs.map((run) => (run.kind === 'climb' ? run.heightGainM : run.kind)),
        ),
      )
    expect(readings(['watch'])).toEqual(readings([]))
    expect(draw(['watch'])).not.toEqual(draw([]))
  })

  it('refuses a source that does not exist', () => {
    expect(() => sourcesNamed(['moonlight'])).toThrow('no source or group is called moonlight')
  })

  it('measures as its habits say', () => {
    const cellsOf = (habits: 'season' | 'sparse') =>
      drawCommunity({ seed: 5, pilots: 30, habits, on: switches() }).submissions.flatMap(
        ({ entries }) => entries.map(({ runs }) => runs),
      )
    const count = (runs: readonly { kind: string }[], kind: string) =>
      runs.filter((run) => run.kind === kind).length
    const burns = (habits: 'season' | 'sparse') =>
      new Set(cellsOf(habits).map((runs) => count(runs, 'fuelBurn')))
    const glides = (habits: 'season' | 'sparse') =>
      new Set(cellsOf(habits).map((runs) => count(runs, 'sink')))
    expect(burns('season')).toEqual(new Set([0, 2, 3]))
    expect(burns('sparse')).toEqual(new Set([0, 1, 2]))
    expect(glides('season')).toEqual(new Set([0, 3]))
    expect(glides('sparse')).toEqual(new Set([0]))
    expect(() => habitNamed('daily')).toThrow('no habits are called daily')
  })
})
