import { RHO0 } from '../../../src/core/atmosphere/constants.ts'
import type { SetupParts } from '../../../src/core/comparison/additive-view.ts'
import type { Equipment } from '../../../src/core/normalise/types.ts'
import { REFERENCE_AIR } from './air.ts'
import type { Chance } from './chance.ts'
import { type Engine, peakPowerRps, seaLevelTorqueNm } from './engine.ts'
import { climbAtFullThrottle, flightAtClimbRate, type SteadyFlight } from './flight.ts'
import { type Plant, type Propulsion, propulsionWith, truePropulsion } from './plant.ts'
import type { Propeller } from './propeller.ts'
import type { Switches } from './sources.ts'
import { type Flyer, REFERENCE_MASS_KG, REFERENCE_WING } from './wing.ts'

/** A frame by what it does to the flight. */
interface Frame {
  /** Drag area above that of the ordinary frame [m²]. */
  readonly addedDragAreaM2: number
  /** Tilt of the thrust line against the path [rad]. */
  readonly thrustAngleRad: number
}

/** What a setup truly does at the reference state. */
export interface Truth {
  readonly climbRateMps: number
  readonly fuelFlowLPerH: number
}

/** An engine with propeller and frame, as flown, and the truth about it. */
export interface WorldSetup {
  readonly id: string
  readonly parts: SetupParts
  readonly equipment: Equipment
  readonly frame: Frame
  /** Frame, engine and propeller, no fuel [kg]. */
  readonly massKg: number
  readonly plant: Plant
  readonly propulsion: Propulsion
  readonly truth: Truth
}

/** Peak power of the engines [kW], from a small single to a large one; the fourth is a four-stroke. Judgement. */
const PEAK_KW = [9, 10.2, 11, 11.8, 12.8, 14.2] as const
const FOUR_STROKE = 3
const DEGREE = Math.PI / 180

/**
 * Twelve setups: six engines with two propellers each. The second propeller of every other engine is
 * nearly the twin of the first, so that small differences occur beside large ones.
 */
export function drawSetups(chance: Chance, on: Switches): WorldSetup[] {
  const frames = Array.from({ length: 4 }, () => drawFrame(chance, on))
  return PEAK_KW.flatMap((kw, index) => {
    const engine = drawEngine(chance, kw, index === FOUR_STROKE)
    const first = drawShape(chance)
    const second = drawShape(chance)
    const twin = index % 2 === 0
    return [first, twin ? between(first, second, 0.12) : second].map((shape, which) => {
      const plant = matched(engine, shape)
      const frame = twin ? frames[index % 4]! : chance.pick(frames)
      const massKg = 18 + 0.6 * kw + chance.normal(0.8)
      const id = `${String.fromCharCode(97 + index)}${which + 1}`
      const parts = {
        powerplant: id[0]!,
        propeller: `propeller of ${id}`,
        frame: `frame ${frames.indexOf(frame)}`,
      }
      return { ...asFlown(plant, frame, on), id, parts, frame, massKg }
    })
  })
}

/** The setup with its truth: reference mass and air, reference wing, its own frame. */
function asFlown(plant: Plant, frame: Frame, on: Switches) {
  const flyer: Flyer = { wing: REFERENCE_WING, allUpMassKg: REFERENCE_MASS_KG, ...frame }
  const own = truePropulsion(plant)
  const climb: SteadyFlight = climbAtFullThrottle(flyer, own, {
    air: REFERENCE_AIR,
    thrustFactor: 1,
  })
  const level = flightAtClimbRate(flyer, 0, REFERENCE_AIR)
  return {
    plant,
    equipment: {
      drive: plant.engine.stroke,
      propellerDiameterCm: 100 * plant.propeller.diameterM,
    },
    propulsion: propulsionWith(plant, on, { climb, level }),
    truth: {
      climbRateMps: climb.climbRateMps,
      fuelFlowLPerH: own.fuelFlowLPerH(level.thrustN, level.airspeedMps, REFERENCE_AIR),
    },
  }
}

/** Drag areas and thrust lines of frames. Judgement: hoops and cages differ by a few hundredths of m². */
function drawFrame(chance: Chance, on: Switches): Frame {
  const addedDragAreaM2 = chance.clipped(0.03)
  const thrustAngleRad = chance.uniform(1, 6) * DEGREE
  return {
    addedDragAreaM2: on.frame ? addedDragAreaM2 : 0,
    thrustAngleRad: on.thrustLine ? thrustAngleRad : 0,
  }
}

/**
 * An engine of given peak power. Tuned exhausts make the torque of two-strokes fall steeply above its
 * peak. Friction, temperature exponent and mixture: ranges of small engines, from memory; together
 * they give brake exponents around those of ISO 1585 (1.2 of pressure, 0.6 of temperature).
 */
function drawEngine(chance: Chance, nominalKw: number, isFourStroke: boolean): Engine {
  const kw = nominalKw * (1 + chance.clipped(0.02))
  const shape = {
    peakTorqueNm: 1,
    peakTorqueRps: isFourStroke ? chance.uniform(95, 110) : chance.uniform(125, 155),
    riseCurvature: isFourStroke ? chance.uniform(0.6, 1) : chance.uniform(1.2, 2.2),
    fallCurvature: isFourStroke ? chance.uniform(1.5, 2.5) : chance.uniform(4, 7),
    frictionShare: isFourStroke ? chance.uniform(0.14, 0.2) : chance.uniform(0.1, 0.17),
    temperatureExponent: chance.uniform(0.4, 0.65),
    richness: chance.uniform(1.12, 1.2),
    mixtureExponent: isFourStroke ? chance.uniform(0.1, 0.3) : chance.uniform(0.25, 0.5),
    indicatedEfficiency: isFourStroke ? chance.uniform(0.27, 0.31) : chance.uniform(0.17, 0.21),
    pumpingShare: chance.uniform(0.2, 0.5),
    loadEnrichment: chance.uniform(0, 0.12),
    stroke: isFourStroke ? 'fourStroke' : 'twoStroke',
  } as const
  const rps = peakPowerRps(shape)
  const wattsPerNm = 2 * Math.PI * rps * seaLevelTorqueNm(shape, rps)
  return { ...shape, peakTorqueNm: (1000 * kw) / wattsPerNm }
}

/** What of a propeller is chosen; its coefficients follow from matching it to an engine. */
interface PropellerShape {
  readonly diameterM: number
  readonly figureOfMerit: number
  readonly zeroThrustAdvance: number
  readonly thrustLinear: number
  readonly torqueRise: number
  readonly torqueLeft: number
  /** Engine speed at rest over that of peak power [1]. */
  readonly match: number
}

/** Ranges of carbon and wooden propellers of this class. Judgement; diameters to the centimetre. */
function drawShape(chance: Chance): PropellerShape {
  return {
    diameterM: chance.integer(115, 140) / 100,
    figureOfMerit: chance.uniform(0.6, 0.68),
    zeroThrustAdvance: chance.uniform(0.58, 0.76),
    thrustLinear: chance.uniform(0.35, 0.65),
    torqueRise: chance.uniform(0, 0.25),
    torqueLeft: chance.uniform(0.25, 0.4),
    match: chance.uniform(0.92, 1),
  }
}

/** The first shape, moved a little towards the second; diameter kept. */
function between(first: PropellerShape, second: PropellerShape, share: number): PropellerShape {
  const mixed = (key: keyof PropellerShape) => first[key] + share * (second[key] - first[key])
  return {
    diameterM: first.diameterM,
    figureOfMerit: mixed('figureOfMerit'),
    zeroThrustAdvance: mixed('zeroThrustAdvance'),
    thrustLinear: mixed('thrustLinear'),
    torqueRise: mixed('torqueRise'),
    torqueLeft: mixed('torqueLeft'),
    match: mixed('match'),
  }
}

/** Tip speed at rest that gearboxes and propellers of this class are made for [m/s]. Common practice. */
const STATIC_TIP_MPS = 185
const GEAR_EFFICIENCY = 0.96

/** Chooses reduction, chord and pitch so that engine and propeller meet at the wanted static speed. */
function matched(engine: Engine, shape: PropellerShape): Plant {
  const { diameterM: D, figureOfMerit, match, ...curve } = shape
  const engineRps = match * peakPowerRps(engine)
  const rps = STATIC_TIP_MPS / (Math.PI * D)
  const reduction = engineRps / rps
  const torque = seaLevelTorqueNm(engine, engineRps) * reduction * GEAR_EFFICIENCY
  const powerW = 2 * Math.PI * rps * torque
  const thrustN =
    (figureOfMerit * powerW) ** (2 / 3) * (2 * RHO0 * (Math.PI / 4) * D * D) ** (1 / 3)
  const propeller: Propeller = {
    ...curve,
    diameterM: D,
    staticThrust: thrustN / (RHO0 * rps ** 2 * D ** 4),
    staticTorque: torque / (RHO0 * rps ** 2 * D ** 5),
  }
  return { engine, propeller, reduction, gearEfficiency: GEAR_EFFICIENCY }
}
