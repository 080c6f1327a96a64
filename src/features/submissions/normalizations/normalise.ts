import type { Pool, PoolClient } from 'pg'

import { ApiProblem, type FieldError } from '../../../contract/problems.ts'
import { normaliseSubmission } from '../../../core/normalise/submission.ts'
import type {
  Equipment,
  FlightSession,
  RunOutcome,
  SubmittedEntry,
  Warning,
} from '../../../core/normalise/types.ts'
import type { DescribedWing, NewNormalization } from '../schema.ts'
import { findSetups, findWing, type KnownSetup } from './equipment-repository.ts'
import { inBody, pointsIntoRun } from './pointers.ts'

/** The results of a submission: per entry the set-up it stands for, and per run what came out. */
export interface NormalisedSubmission {
  /** null where the entry describes its equipment. */
  readonly setupIds: readonly (string | null)[]
  /** `outcomes[entry][run]`, in the order of the body. */
  readonly outcomes: readonly (readonly RunOutcome[])[]
  /** Those that belong to no single run. */
  readonly warnings: readonly Warning[]
  /** What went into the core. */
  readonly asked: { readonly session: FlightSession; readonly entries: readonly SubmittedEntry[] }
}

/**
 * Looks up what the body names and brings every run to the reference state.
 *
 * @throws {ApiProblem} unknown-reference, invalid-request where two entries turn out to be one
 *   set-up, outside-model-range with every refusal
 */
export async function normalise(
  source: Pool | PoolClient,
  body: NewNormalization,
): Promise<NormalisedSubmission> {
  const wing = await wingOf(source, body)
  const known = await setupsOf(source, body)
  const entries = body.entries.map((entry, index) => ({
    entry,
    runs: entry.runs,
    equipment: entry.equipment ?? equipmentOf(known[index]!),
  }))
  const session = { ...body, wing }
  const core = normaliseSubmission(session, entries)
  if (core.outcomes === null || core.refusals.length > 0) {
    throw outsideRange(core.refusals.map(inBody(body)))
  }
  refuseNonFinite(core.outcomes)
  return {
    setupIds: known.map((setup) => setup?.setupId ?? null),
    outcomes: core.outcomes.map((runs) =>
      runs.map((run) => ({ ...run, warnings: run.warnings.map(inBody(body)) })),
    ),
    warnings: core.warnings.filter(({ pointer }) => !pointsIntoRun(pointer)).map(inBody(body)),
    asked: { session, entries },
  }
}

async function wingOf(
  source: Pool | PoolClient,
  { wing }: NewNormalization,
): Promise<DescribedWing> {
  if (!('id' in wing)) return wing
  const known = await findWing(source, wing.id)
  if (known !== null) return known
  throw unknownReference([{ pointer: '/wing/id', detail: `There is no wing ${wing.id}.` }])
}

/** Per entry its set-up; null where it describes its equipment. */
async function setupsOf(
  source: Pool | PoolClient,
  { entries }: NewNormalization,
): Promise<(KnownSetup | null)[]> {
  const asked = entries.map(({ setupId }) => setupId?.toLowerCase() ?? null)
  const rows = await findSetups(
    source,
    asked.filter((id) => id !== null),
  )
  const byId = new Map(rows.map((row) => [row.askedId, row]))
  const setups = asked.map((id) => (id === null ? null : (byId.get(id) ?? undefined)))
  const missing = asked.flatMap((id, index) =>
    setups[index] === undefined
      ? [{ pointer: `/entries/${index}/setupId`, detail: `There is no set-up ${id}.` }]
      : [],
  )
  if (missing.length > 0) throw unknownReference(missing)
  const found = setups.map((setup) => setup ?? null)
  refuseMergedTwins(found)
  return found
}

/** Different ids of one set-up: the schema cannot see that they were merged. */
function refuseMergedTwins(setups: readonly (KnownSetup | null)[]): void {
  const ids = setups.map((setup) => setup?.setupId ?? null)
  const errors = ids.flatMap((id, index) => {
    const first = ids.indexOf(id)
    if (id === null || first === index) return []
    const detail = `Merged into the set-up of entry ${first}; put its runs there.`
    return [{ pointer: `/entries/${index}/setupId`, detail }]
  })
  if (errors.length > 0) throw new ApiProblem('invalid-request', { errors })
}

function equipmentOf(setup: KnownSetup): Equipment {
  const { drive, propellerDiameterCm, reductionRatio, ratedPowerKw } = setup
  return {
    drive,
    propellerDiameterCm,
    reductionRatio: reductionRatio ?? undefined,
    ratedPowerKw: ratedPowerKw ?? undefined,
  }
}

/** A result that is no number is no result, whatever let it through. */
function refuseNonFinite(outcomes: readonly (readonly RunOutcome[])[]): void {
  const errors = outcomes.flatMap((runs, entry) =>
    runs.flatMap((outcome, run) => {
      if (isFiniteThroughout(outcome)) return []
      const detail = 'These values lead to no finite result; check the stated uncertainties.'
      return [{ pointer: `/entries/${entry}/runs/${run}`, detail }]
    }),
  )
  if (errors.length > 0) throw outsideRange(errors)
}

function isFiniteThroughout(value: unknown): boolean {
  if (typeof value === 'number') return Number.isFinite(value)
  if (typeof value !== 'object' || value === null) return true
  return Object.values(value).every(isFiniteThroughout)
}

function unknownReference(errors: FieldError[]): ApiProblem {
  return new ApiProblem('unknown-reference', { errors })
}

function outsideRange(faults: readonly FieldError[]): ApiProblem {
  const errors = faults.map(({ pointer, detail }) => ({ pointer, detail }))
  return new ApiProblem('outside-model-range', { errors })
}
