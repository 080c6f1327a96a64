import { normaliseSubmission } from '../../src/core/normalise/submission.ts'
import type {
  Drive,
  Equipment,
  Evidence,
  FlightSession,
  FlownEntry,
  Run,
} from '../../src/core/normalise/types.ts'
import { Pcg32 } from '../../src/core/random/pcg32.ts'
import { type DemoSubmission, simulateEvenings } from '../../src/demo/simulate.ts'
import { readWorld, type World } from '../../src/demo/world.ts'
import type { RefereedRun } from './referee.ts'

/** The seed of the demo; any would do. */
const SEED = 41

/** The demo's evenings as evidence on one quantity, normalised as the service does it. */
export async function demoEvidence(quantity: Evidence['quantity']): Promise<RefereedRun[]> {
  const world = await readWorld()
  return simulateEvenings(world, new Pcg32(SEED)).flatMap((evening, index) =>
    runsOf(world, evening, { session: `evening${index}`, quantity }),
  )
}

function runsOf(
  world: World,
  { pilot, body }: DemoSubmission,
  { session, quantity }: { readonly session: string; readonly quantity: Evidence['quantity'] },
): RefereedRun[] {
  const entries = body.entries.map((entry) => ({
    entry: entry as FlownEntry,
    equipment: equipmentOf(world, entry.setup),
    runs: entry.runs as readonly Run[],
  }))
  const { outcomes, refusals } = normaliseSubmission(body as unknown as FlightSession, entries)
  if (outcomes === null) throw new Error(`the demo was refused: ${JSON.stringify(refusals)}`)
  const found = outcomes.flatMap((runs, entry) =>
    runs.flatMap(({ evidence }) =>
      evidence?.quantity === quantity ? [{ evidence, setup: body.entries[entry]!.setup }] : [],
    ),
  )
  const square = (sum: number, { evidence }: (typeof found)[number]) =>
    sum + evidence.sharedStandardUncertainty ** 2 / found.length
  const shared = Math.sqrt(found.reduce(square, 0))
  return found.map(({ evidence, setup }) => ({
    ...{ setup, session, pilot, shared },
    y: evidence.logValue,
    u: evidence.ownStandardUncertainty,
  }))
}

function equipmentOf({ catalogue }: World, setup: string): Equipment {
  const [powerplant, propeller] = catalogue.setups[setup]!
  const engine = catalogue.components[powerplant]!
  return {
    drive: engine.drive as Drive,
    propellerDiameterCm: Number(catalogue.components[propeller]!.diameterCm),
    reductionRatio: Number(engine.reductionRatio),
    ratedPowerKw: Number(engine.ratedPowerKw),
  }
}
