import { startTestApp, type TestApp } from '../../support/app.ts'
import type { SignedUp } from '../../support/sign-up.ts'
import { signUp } from '../../support/sign-up.ts'
import { insertSetup } from '../submissions/desk.ts'

/** A setup and how it did: seconds for 100 m of each climb, for half a litre of each burn, or for 700 Wh. */
export interface Flown {
  readonly setupId: string
  readonly climbsS?: readonly number[]
  readonly burnsS?: readonly number[]
  readonly batteriesS?: readonly number[]
  /** Static pulls [N]. */
  readonly pullsN?: readonly number[]
}

export interface Field extends TestApp {
  readonly pilots: readonly SignedUp[]
  setup(): Promise<string>
  /** One session of the pilot with that number; gives the id of the submission. */
  fly(pilot: number, flown: readonly Flown[], extra?: object): Promise<string>
  /** A read; the caller says what shape the body has. */
  get<Body>(
    path: string,
  ): Promise<{ readonly status: number; readonly body: Body; readonly text: string }>
}

/** The app with a few pilots and a way to fly evenings on a calm standard day. */
export async function openField(pilots = 3): Promise<Field> {
  const test = await startTestApp()
  const people: SignedUp[] = []
  for (let i = 0; i < pilots; i++) people.push(await signUp(test))
  return {
    ...test,
    pilots: people,
    setup: () => insertSetup(test.db),
    async fly(pilot, flown, extra = {}) {
      const answer = await test.request
        .post('/v1/submissions')
        .set(people[pilot]!.authorization)
        .send({ ...session(flown), ...extra })
      if (answer.status !== 201) throw new Error(JSON.stringify(answer.body))
      return answer.body.id
    },
    async get<Body>(path: string) {
      const { status, body, text } = await test.request.get(path)
      return { status, body: body as Body, text }
    },
  }
}

/** A submission of that evening. */
export function session(flown: readonly Flown[]): object {
  return {
    flownOn: '2026-05-17',
    site: { name: 'Larkfield', elevationM: 0 },
    conditions: { temperatureC: 15, qnhHPa: 1013.25, relativeHumidityPct: 0, airMotion: 'calm' },
    pilot: { massKg: 82 },
    wing: {
      flatAreaM2: 24,
      glideRatio: 7,
      glideSource: 'measured',
      trimSpeedMps: 10.5,
      trimAtAllUpMassKg: 120,
    },
    interest: 'none',
    entries: flown.map(({ setupId, climbsS = [], burnsS = [], batteriesS = [], pullsN = [] }) => ({
      setupId,
      allUpMassKg: 120,
      massSource: 'weighed',
      runs: [
        ...climbsS.map((durationS) => ({
          kind: 'climb',
          heightGainM: 100,
          durationS,
          heightSource: 'barometricTemperatureCompensated',
          startHeightAboveSiteM: 0,
        })),
        ...burnsS.map((durationS) => ({
          kind: 'fuelBurn',
          volumeMl: 500,
          durationS,
          heightAboveSiteM: 100,
          heightChangeM: 0,
          fuelTemperatureC: 15,
        })),
        ...batteriesS.map((durationS) => ({
          kind: 'energyUse',
          energyWh: 700,
          durationS,
          heightAboveSiteM: 100,
          heightChangeM: 0,
          batteryStartV: 54,
          batteryEndV: 52,
        })),
        ...pullsN.map((thrustN) => ({ kind: 'staticPull', thrustN, headwindMps: 0 })),
      ],
    })),
  }
}
