import type { FlownWing } from '../../../src/core/normalise/types.ts'
import { type Chance, rounded } from './chance.ts'
import type { WorldSetup } from './setups.ts'
import type { Switches } from './sources.ts'
import { liftCoefficientAt, type TrueWing } from './wing.ts'

/** A pilot with wing, instruments and habits. */
export interface WorldPilot {
  readonly id: string
  readonly massKg: number
  /** Clothing, wing and harness [kg]. */
  readonly gearKg: number
  readonly wing: TrueWing
  readonly stated: FlownWing
  readonly elevationM: number
  readonly setups: readonly WorldSetup[]
  readonly weighs: boolean
  /** Error of the scale or of the guess that stays with the pilot [kg]. */
  readonly massErrorKg: number
  readonly hasBarometer: boolean
  /** Scale error of the height instrument [1]. */
  readonly heightScale: number
  /** Scale error of the measuring cylinder [1]. */
  readonly cylinderScale: number
  /** What the stopwatch is read to [s]. */
  readonly watchStepS: number
  /** Thrust and flow of this pilot's specimens over those of the type [1], by setup. */
  readonly specimen: ReadonlyMap<string, { readonly thrust: number; readonly flow: number }>
}

/** Fields that pilots fly from [m]. Judgement. */
const ELEVATIONS_M = [5, 40, 90, 150, 260, 400, 560, 820] as const
const DEGREE = Math.PI / 180
/** Share of catalogue glide that the service assumes for pilot and cage [1]; what "off" means for glide. */
const ASSUMED_SHARE = 0.85
/** Specimens of one type differ in thrust and flow: judgement, used only as a stress. */
const SPECIMEN_SD = { thrust: 0.015, flow: 0.03 } as const

/**
 * Pilots with two to four setups each, so that all setups hang together: every pilot has two
 * neighbours of the ring of setups by power, and up to two more of any kind.
 *
 * People choose their engine by their weight: heavier pilots stand further along the ring, with a
 * scatter of 10 kg about that order. Common practice; the scatter is judgement.
 */
export function drawPilots(
  chance: Chance,
  world: { readonly setups: readonly WorldSetup[]; readonly count: number; readonly on: Switches },
): WorldPilot[] {
  const { setups: ring, count, on } = world
  const glideShare = drawGlideShare(chance, on)
  const people = Array.from({ length: count }, (_, p) => {
    const massKg = 82 + chance.clipped(14)
    const id = `p${String(p).padStart(3, '0')}`
    return { id, massKg, order: massKg + chance.normal(10) }
  })
  people.sort((a, b) => a.order - b.order)
  return people.map(({ id, massKg }, place) => {
    const at = Math.floor((place * ring.length) / count)
    const own = [ring[at]!, ring[(at + 1) % ring.length]!]
    const others = chance.shuffled(ring.filter((setup) => !own.includes(setup)))
    const setups = [...own, ...others.slice(0, chance.integer(0, 2))]
    return drawPilot(chance, { id, massKg, setups, glideShare, on })
  })
}

/**
 * System glide over catalogue glide, the part common to all makers: hanging drag of pilot and cage
 * (0.2 to 0.35 m² more than in free flight costs 9 to 15 % of the glide), optimism of catalogues (0 to
 * 5 %), and trim a little faster than the best glide that catalogues state (3 to 5 %). Judgement:
 * anything from 0.77 to 0.91, one value in a community.
 */
function drawGlideShare(chance: Chance, on: Switches): number {
  const share = chance.uniform(0.77, 0.91)
  return on.glideCommon ? share : ASSUMED_SHARE
}

function drawPilot(
  chance: Chance,
  given: {
    readonly id: string
    readonly massKg: number
    readonly setups: readonly WorldSetup[]
    readonly glideShare: number
    readonly on: Switches
  },
): WorldPilot {
  const { on, setups, massKg } = given
  const gearKg = 11 + chance.clipped(1)
  const weighs = chance.chance(0.6)
  // A scale is off by a kilogram; a guess leaves out boots, reserve and water. Judgement.
  const massErrorKg = chance.normal(weighs ? 1.2 : 3.5)
  const heightScale = chance.normal(0.005)
  const cylinderScale = chance.normal(0.007)
  return {
    id: given.id,
    massKg,
    gearKg,
    setups,
    weighs,
    massErrorKg: on.mass ? massErrorKg : 0,
    elevationM: chance.pick(ELEVATIONS_M),
    hasBarometer: chance.chance(0.7),
    heightScale: on.height ? heightScale : 0,
    cylinderScale: on.volume ? cylinderScale : 0,
    watchStepS: chance.chance(0.3) ? 1 : 0.1,
    ...drawWing(chance, { ...given, allUpMassKg: massKg + gearKg + 30 }),
    specimen: new Map(
      setups.map(({ id }) => {
        const thrust = Math.exp(chance.normal(SPECIMEN_SD.thrust))
        const flow = Math.exp(chance.normal(SPECIMEN_SD.flow))
        return [id, on.specimen ? { thrust, flow } : { thrust: 1, flow: 1 }]
      }),
    ),
  }
}

/**
 * A wing that suits the mass, as its maker states it and as it is.
 *
 * Loadings from beginners' wings to fast ones; speeds and catalogue glides of the market. Judgement.
 *
 * What is not as stated, judgement: glide 9 % from wing to wing (drag of the pilot's posture and dress
 * 5 %, how far trim lies from best glide 5 %, makers' measuring 5 %, age 3 %), trim speed 4 % (lines
 * stretch and shrink), thrust line 1.5° by seat and hang points, lift 0.1 per unit of thrust over
 * weight either way; induced drag 35 to 50 % of all at trim, which is faster than best glide.
 */
function drawWing(chance: Chance, { allUpMassKg, glideShare, on }: WingToDraw) {
  const loading = chance.uniform(4.4, 6.4)
  const flatAreaM2 = rounded(allUpMassKg / loading, 1)
  const glideRatio = rounded(8.3 + chance.clipped(0.45), 0.1)
  const trimAtAllUpMassKg = rounded(5 * flatAreaM2, 1)
  const trimSpeedMps = rounded(10.5 + chance.clipped(0.6), 0.1)
  const ownGlide = Math.exp(chance.normal(0.09))
  const ownTrim = Math.exp(chance.normal(0.04))
  const liftShift = chance.normal(0.1)
  const thrustAngleRad = chance.normal(1.5) * DEGREE
  const inducedShare = chance.uniform(0.35, 0.5)
  const trueTrimMps = trimSpeedMps * (on.trim ? ownTrim : 1)
  const stated: FlownWing = {
    flatAreaM2,
    glideRatio,
    glideSource: 'catalogue',
    trimSpeedMps,
    trimAtAllUpMassKg,
  }
  const wing: TrueWing = {
    flatAreaM2,
    liftCoefficient: liftCoefficientAt(trueTrimMps, { allUpMassKg: trimAtAllUpMassKg, flatAreaM2 }),
    glideRatio: glideRatio * glideShare * (on.glideOwn ? ownGlide : 1),
    inducedShare,
    liftShift: on.thrustLine ? liftShift : 0,
    thrustAngleRad: on.thrustLine ? thrustAngleRad : 0,
  }
  return { wing, stated }
}

interface WingToDraw {
  readonly allUpMassKg: number
  readonly glideShare: number
  readonly on: Switches
}
