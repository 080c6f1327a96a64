import type { Role } from '../../../src/contract/caller.ts'
import type { Drive } from '../../../src/core/normalise/types.ts'
import type { Database } from '../../../src/db/client.ts'
import type { NewRun } from '../../../src/features/submissions/run-kinds.ts'
import type { NewSubmission } from '../../../src/features/submissions/schema.ts'
import { startTestApp, type TestApp } from '../../support/app.ts'

export interface Pilot {
  readonly accountId: string
  readonly token: string
}

/** What a set-up of these tests is made of. */
export interface SetupParts {
  readonly drive?: Drive
  readonly propellerDiameterCm?: number
  readonly reductionRatio?: number
  readonly ratedPowerKw?: number
}

/** The app with what these tests need around it: accounts and set-ups. */
export interface Desk extends TestApp {
  signUp(role?: Role): Promise<Pilot>
  setup(equipment?: SetupParts): Promise<string>
}

export async function startDesk(): Promise<Desk> {
  const test = await startTestApp()
  let accounts = 0
  return {
    ...test,
    async signUp(role = 'pilot') {
      accounts += 1
      const email = `pilot${accounts}@example.org`
      const password = 'a long enough passphrase'
      const account = await test.request
        .post('/v1/accounts')
        .send({ email, password, displayName: `Pilot ${accounts}` })
        .expect(201)
      await test.db.pool.query('UPDATE account SET role = $2 WHERE id = $1', [
        account.body.id,
        role,
      ])
      const token = await test.request
        .post('/v1/tokens')
        .send({ grantType: 'password', email, password })
      return { accountId: account.body.id, token: token.body.accessToken }
    },
    setup: (equipment) => insertSetup(test.db, equipment),
  }
}

let components = 0

/** A set-up of invented parts, each new. */
export async function insertSetup(
  db: Database,
  { drive = 'twoStroke', propellerDiameterCm = 125, reductionRatio, ratedPowerKw }: SetupParts = {},
): Promise<string> {
  const component = async (kind: string, column: string, value: unknown) => {
    components += 1
    const { rows } = await db.pool.query<{ id: string }>(
      `INSERT INTO component (kind, maker, model, ${column}) VALUES ($1, 'Invented', $2, $3) RETURNING id`,
      [kind, `${kind} ${components}`, value],
    )
    return rows[0]!.id
  }
  const powerplant = await component('powerplant', 'drive', drive)
  await db.pool.query(
    'UPDATE component SET reduction_ratio = $2, rated_power_kw = $3 WHERE id = $1',
    [powerplant, reductionRatio, ratedPowerKw],
  )
  const { rows } = await db.pool.query<{ id: string }>(
    'INSERT INTO setup (powerplant_id, propeller_id, frame_id) VALUES ($1, $2, $3) RETURNING id',
    [
      powerplant,
      await component('propeller', 'diameter_cm', propellerDiameterCm),
      await component('frame', 'mass_kg', 4),
    ],
  )
  return rows[0]!.id
}

export const CLIMB = {
  kind: 'climb',
  heightGainM: 100,
  durationS: 55,
  heightSource: 'barometric',
  startHeightAboveSiteM: 50,
} satisfies NewRun

export const FUEL_BURN = {
  kind: 'fuelBurn',
  volumeMl: 500,
  durationS: 552,
  heightAboveSiteM: 200,
  heightChangeM: 0,
  rpm: 5700,
} satisfies NewRun

export const ENERGY_USE = {
  kind: 'energyUse',
  energyWh: 700,
  durationS: 540,
  heightAboveSiteM: 150,
  heightChangeM: 0,
  batteryStartV: 54,
  batteryEndV: 52,
  rpm: 1500,
} satisfies NewRun

export const STATIC_PULL = {
  kind: 'staticPull',
  thrustN: 600,
  rpm: 8300,
  headwindMps: 0.5,
  lineAngleDeg: 0,
} satisfies NewRun

export const SOUND_LEVEL = {
  kind: 'soundLevel',
  levelDbA: 98,
  backgroundDbA: 60,
  position: 'pilotEar',
  power: 'full',
  instrument: 'class2',
} satisfies NewRun

export const SINK = {
  kind: 'sink',
  heightLossM: 100,
  durationS: 60,
  heightSource: 'barometric',
  startHeightAboveSiteM: 300,
} satisfies NewRun

export const LEVEL_SPEED = {
  kind: 'levelSpeed',
  heightAboveSiteM: 200,
  legs: [
    { trackDeg: 12, groundSpeedMps: 12.1 },
    { trackDeg: 131, groundSpeedMps: 10.4 },
    { trackDeg: 250, groundSpeedMps: 12.9 },
  ],
} satisfies NewRun

/**
 * The worked example of METHOD.md, section d, as a submission:
 * 600 m, QNH 1018, 25 °C, 50 %, a climb from 50 m above the field, 100 m indicated in 55 s with
 * 135 kg under 26 m², G 6.8, V0 10.8 m/s at 4.8 kg/m². The propeller has 1.25 m.
 */
export function scenarioA(setupId: string, runs: NewRun[] = [CLIMB]): NewSubmission {
  return {
    flownOn: '2026-05-17',
    site: { name: 'Larkfield', elevationM: 600 },
    conditions: { temperatureC: 25, qnhHPa: 1018, relativeHumidityPct: 50, airMotion: 'light' },
    pilot: { massKg: 95 },
    wing: {
      flatAreaM2: 26,
      glideRatio: 6.8,
      glideSource: 'measured',
      trimSpeedMps: 10.8,
      trimAtAllUpMassKg: 4.8 * 26,
    },
    interest: 'none',
    entries: [{ setupId, allUpMassKg: 135, massSource: 'weighed', runs }],
  }
}
