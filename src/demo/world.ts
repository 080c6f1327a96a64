import { readFile } from 'node:fs/promises'

import type { AirMotion } from '../core/normalise/types.ts'

/** The demo's world: what `seed/` describes. Fields as in the API where they are sent to it. */
export interface World {
  readonly catalogue: {
    readonly components: Readonly<Record<string, WorldComponent>>
    readonly setups: Readonly<
      Record<string, readonly [powerplant: string, propeller: string, frame: string]>
    >
  }
  readonly truth: {
    readonly setups: Readonly<Record<string, SetupTruth>>
    readonly scatter: Scatter
  }
  readonly fields: Readonly<Record<string, WorldField>>
  readonly people: readonly WorldPilot[]
}

export type WorldComponent = {
  readonly kind: string
  readonly maker: string
  readonly model: string
} & Readonly<Record<string, unknown>>

/** A setup at the reference state. */
export interface SetupTruth {
  readonly inducedPowerW: number
  readonly fuelFlowLPerH: number
  readonly staticThrustN: number
  readonly soundAtEarDb: number
}

export interface WorldField {
  readonly name: string
  readonly elevationM: number
  /** Coldest and hottest air flown in [°C]. */
  readonly temperatureC: readonly [number, number]
}

export interface WorldPilot {
  readonly name: string
  readonly massKg: number
  readonly passengerKg?: number
  readonly wing: string
  readonly field: string
  readonly setups: readonly string[]
  readonly interest?: 'dealer'
}

/** Standard deviations of what varies. Dimensionless ones act on the logarithm. */
export interface Scatter {
  readonly ground: {
    readonly pull: number
    readonly pilotScale: number
    readonly meterDb: number
    readonly sessionDb: number
    readonly runDb: number
  }
  readonly pilot: number
  readonly session: number
  readonly cell: number
  readonly catalogueGlideFactor: { readonly mean: number; readonly sd: number }
  readonly trimSpeed: number
  readonly massKg: number
  readonly temperatureC: number
  readonly qnhHPa: number
  readonly stopwatchS: number
  readonly fuelVolume: number
  readonly starvationS: number
  readonly sessionAirMps: Readonly<Record<AirMotion, number>>
  readonly runAirMps: Readonly<Record<AirMotion, number>>
}

/** Reads `seed/`, which lies beside `src/` and beside `dist/`. */
export async function readWorld(): Promise<World> {
  const read = async (name: string) =>
    JSON.parse(await readFile(new URL(`../../seed/${name}.json`, import.meta.url), 'utf8'))
  const [catalogue, truth, fields, people] = await Promise.all(
    ['catalogue', 'truth', 'fields', 'people'].map(read),
  )
  return { catalogue, truth, fields, people }
}
