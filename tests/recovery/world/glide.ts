import { G0 } from '../../../src/core/atmosphere/constants.ts'
import type { SinkRun } from '../../../src/core/normalise/types.ts'
import { airAtHeight, shownGainM, type TrueAir } from './air.ts'
import { type Chance, rounded } from './chance.ts'
import { rootOf } from './root.ts'
import type { Flown } from './runs.ts'
import type { Switches } from './sources.ts'
import { type Flyer, forcesOn } from './wing.ts'

/** Glides of an evening: three, as the service advises. */
const GLIDES = 3
/** Blades of a standing propeller across the flow, as a drag area [m²]. Judgement: 0.1 m², two thirds hidden by cage and pilot. */
const STANDING_PROPELLER_M2 = 0.03

/**
 * Sink rate of a steady glide with the engine off [m/s]: lift and drag balance the weight, trim held
 * hands off at no thrust.
 */
export function sinkRateMps(flyer: Flyer, air: TrueAir): number {
  const weight = flyer.allUpMassKg * G0
  const forces = (airspeedMps: number) => forcesOn(flyer, airspeedMps, { thrustN: 0, air })
  const airspeedMps = rootOf(
    (V) => {
      const { liftN, dragN } = forces(V)
      return Math.hypot(liftN, dragN) - weight
    },
    5,
    22,
  )
  return (airspeedMps * forces(airspeedMps).dragN) / weight
}

/** The glides of one evening, timed by hand over a height lost as climbs are over one gained. */
export function flyGlides(chance: Chance, flown: Flown, on: Switches): SinkRun[] {
  return Array.from({ length: GLIDES }, () => flyGlide(chance, flown, on))
}

function flyGlide(chance: Chance, { pilot, day, flyer }: Flown, on: Switches): SinkRun {
  const startHeightAboveSiteM = 10 * chance.integer(22, 35)
  const trueLossM = 10 * chance.integer(10, 15)
  const airMps = day.sessionAirMps + chance.normal(1) * day.climbAirSdMps
  const noiseM = pilot.hasBarometer ? chance.normal(0.35) : chance.normal(2)
  const watchS = chance.normal(0.1)
  const endM = startHeightAboveSiteM - trueLossM
  const air = airAtHeight(day.column, (startHeightAboveSiteM + endM) / 2)
  const added = flyer.addedDragAreaM2 + (on.standing ? STANDING_PROPELLER_M2 : 0)
  const sinkMps = sinkRateMps({ ...flyer, addedDragAreaM2: added }, air) - airMps
  // Nobody waits in rising air that holds the glide up.
  const trueS = trueLossM / Math.max(0.4, sinkMps)
  const shownM = pilot.hasBarometer
    ? shownGainM(day.column, endM, startHeightAboveSiteM) * (1 + pilot.heightScale)
    : trueLossM
  return {
    kind: 'sink',
    heightLossM: on.height ? rounded(shownM + noiseM, 1) : shownM,
    durationS: on.watch ? rounded(trueS + watchS, pilot.watchStepS) : trueS,
    heightSource: pilot.hasBarometer ? 'barometric' : 'gnss',
    startHeightAboveSiteM,
  }
}
