import { stationPressurePa } from '../../../src/core/atmosphere/pressure.ts'
import type { AirConditions, AirMotion } from '../../../src/core/normalise/types.ts'
import { PA_PER_HPA } from '../../../src/core/units.ts'
import type { TrueColumn } from './air.ts'
import { type Chance, rounded } from './chance.ts'
import type { Habits } from './habits.ts'
import type { Switches } from './sources.ts'

/** The air of one session, as it is and as the pilot writes it down. */
export interface Day {
  readonly column: TrueColumn
  readonly stated: AirConditions
  /** Vertical air that lasts all session [m/s]. */
  readonly sessionAirMps: number
  /** Whether the pilot finds the air fit for measuring consumption. */
  readonly burns: boolean
  /** Whether the air is quiet enough to measure a glide in. */
  readonly quiet: boolean
  /** Standard deviation of the mean vertical air over one climb [m/s]. */
  readonly climbAirSdMps: number
}

const CLASSES: readonly AirMotion[] = ['calm', 'light', 'active', 'thermic']

/**
 * Vertical air by the day's class [m/s]: what lasts a session and what a single climb of a minute or
 * two meets. Judgement: calm mornings hold a few centimetres per second of slope and valley wind;
 * weak thermals half a metre per second over a climb.
 */
const AIR_SD_MPS: Readonly<
  Record<AirMotion, { readonly session: number; readonly climb: number }>
> = {
  calm: { session: 0.04, climb: 0.07 },
  light: { session: 0.08, climb: 0.18 },
  active: { session: 0.15, climb: 0.45 },
  thermic: { session: 0.25, climb: 0.9 },
}

/** How often people measure in which air: tests are flown in quiet air by preference. Judgement. */
const CLASS_SHARES = [0.35, 0.35, 0.22, 0.08] as const
/** How often the pilot's word is that of the next class, either side. Judgement. */
const WRONG_WORD = 0.3

export function drawDay(
  chance: Chance,
  { elevationM, burnShares }: { readonly elevationM: number } & Pick<Habits, 'burnShares'>,
  on: Switches,
): Day {
  const seaLevelC = 16 + chance.clipped(7)
  const trueC = seaLevelC - 0.0065 * elevationM
  const qnhHPa = 1016 + chance.clipped(7)
  const humidity = chance.uniform(0.35, 0.95)
  // From an inversion's edge to the dry adiabate.
  const lapse = chance.uniform(0.003, 0.0098)
  const kind = drawClass(chance)
  const burns = chance.chance(burnShares[kind])
  const sessionAirMps = chance.normal(AIR_SD_MPS[kind].session)
  return {
    column: {
      elevationM,
      fieldTemperatureK: trueC + 273.15,
      fieldPressurePa: stationPressurePa(qnhHPa * PA_PER_HPA, elevationM),
      relativeHumidity: humidity,
      lapseKPerM: on.lapse ? lapse : 0.0065,
    },
    stated: {
      ...readAir(chance, { trueC, qnhHPa, humidity }, on),
      airMotion: wordFor(chance, kind, on),
    },
    burns,
    quiet: kind === 'calm' || kind === 'light',
    sessionAirMps: on.air ? sessionAirMps : 0,
    climbAirSdMps: on.air ? AIR_SD_MPS[kind].climb : 0,
  }
}

/** Thermometers in shade and sun, an airfield's setting some way off, a forecast humidity. Judgement. */
function readAir(
  chance: Chance,
  {
    trueC,
    qnhHPa,
    humidity,
  }: { readonly trueC: number; readonly qnhHPa: number; readonly humidity: number },
  on: Switches,
) {
  const temperatureError = chance.normal(1.5)
  const qnhError = chance.normal(1.5)
  const humidityError = chance.normal(12)
  const knowsQnh = chance.chance(0.85)
  const knowsHumidity = chance.chance(0.6)
  if (!on.weather) {
    return { temperatureC: trueC, qnhHPa, relativeHumidityPct: 100 * humidity }
  }
  const shownPct = Math.min(100, Math.max(5, rounded(100 * humidity + humidityError, 1)))
  return {
    temperatureC: rounded(trueC + temperatureError, 0.5),
    qnhHPa: knowsQnh ? rounded(qnhHPa + qnhError, 1) : undefined,
    relativeHumidityPct: knowsHumidity ? shownPct : undefined,
  }
}

function drawClass(chance: Chance): AirMotion {
  let left = chance.uniform(0, 1)
  for (const [index, share] of CLASS_SHARES.entries()) {
    left -= share
    if (left < 0) return CLASSES[index]!
  }
  return 'thermic'
}

/** The pilot's word: mostly right, else the class beside it. */
function wordFor(chance: Chance, kind: AirMotion, on: Switches): AirMotion {
  const wrong = chance.chance(WRONG_WORD)
  const step = chance.chance(0.5) ? 1 : -1
  if (!wrong || !on.words) return kind
  const index = CLASSES.indexOf(kind) + step
  return CLASSES[Math.min(CLASSES.length - 1, Math.max(0, index))]!
}
