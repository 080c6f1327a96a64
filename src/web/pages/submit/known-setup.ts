import type { Schemas } from '../../api/client.ts'
import type { KnownSetup, Safety } from './form.ts'

/** What the form takes along of a setup of the catalogue. */
export function knownSetup(setup: Schemas['Setup']): KnownSetup {
  const { id, name, powerplant, propeller } = setup
  const { drive } = powerplant
  return { id, name, drive, propellerDiameterCm: propeller.diameterCm, safety: safetyOf(setup) }
}

/** The state of a setup with the reasons that are in force. */
export function safetyOf({ safety: { state, reports } }: Schemas['Setup']): Safety {
  const inForce = reports.filter(({ liftedAt }) => liftedAt === undefined)
  return { state, advisories: [...new Set(inForce.map(({ reason }) => reason))] }
}
