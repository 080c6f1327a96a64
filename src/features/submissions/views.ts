import { cautionsForRuns, doNotFly } from '../../contract/cautions.ts'
import type { FullSubmission, PublicSubmission } from './answer.ts'
import type { ShownRevision, StoredRun } from './repository.ts'
import type { NewSubmission } from './schema.ts'

type Result = Pick<StoredRun, 'normalized' | 'derived' | 'warnings'>

/** What the owner and moderators see of a submission. */
export function fullView(stored: ShownRevision): FullSubmission {
  const { body } = stored
  return {
    view: 'full',
    id: stored.id,
    revision: stored.revision,
    currentRevision: stored.currentRevision,
    accountId: stored.accountId,
    createdAt: stored.createdAt.toISOString(),
    revisedAt: stored.revisedAt.toISOString(),
    withdrawnAt: stored.withdrawnAt?.toISOString() ?? null,
    setAside: stored.setAside,
    importId: stored.importId ?? undefined,
    guestPilotId: stored.guestPilotId ?? undefined,
    ...methodOf(stored.runs),
    ...body,
    entries: runsByEntry(stored).map((runs, index) => {
      const entry = body.entries[index]!
      return { ...entry, setupId: runs[0]!.setupId, runs: withResults(entry.runs, runs) }
    }),
    warnings: [...stored.warnings],
    cautions: cautionsOf(stored),
  }
}

/** What everybody sees of a submission: not who flew, where, on which day or with which mass. */
export function publicView(stored: ShownRevision): PublicSubmission {
  const { body } = stored
  return {
    view: 'public',
    id: stored.id,
    revision: stored.revision,
    setAside: stored.setAside,
    cautions: cautionsOf(stored),
    ...methodOf(stored.runs),
    flownIn: body.flownOn.slice(0, 'YYYY-MM'.length),
    conditions: roundedConditions(body),
    interest: body.interest,
    entries: runsByEntry(stored).map((runs, index) => ({
      setupId: runs[0]!.setupId,
      runs: runs.map((run, runIndex) => ({
        kind: body.entries[index]!.runs[runIndex]!.kind,
        ...resultOf({
          ...run,
          normalized: withoutTheDay(run.normalized),
          derived: withoutTheMass(run.derived),
        }),
        warnings: run.warnings.map(({ pointer, code }) => ({ pointer, code })),
      })),
    })),
  }
}

/** Airspeed and wind as flown would lead to the mass of the pilot and to the day. */
function withoutTheDay(normalized: StoredRun['normalized']): StoredRun['normalized'] {
  const { trueAirspeedMps: _, windMps: __, windFromDeg: ___, ...rest } = normalized
  return rest
}

/** In flight, airspeed and thrust would lead to the mass of the pilot: both are left out everywhere. */
function withoutTheMass(derived: StoredRun['derived']): StoredRun['derived'] {
  if (derived === undefined || derived === null) return derived
  const { helicalTipMach: _, thrustCoefficient: __, ...rest } = derived
  return Object.keys(rest).length === 0 ? undefined : rest
}

function roundedConditions({ site, conditions }: NewSubmission): PublicSubmission['conditions'] {
  const { temperatureC, relativeHumidityPct, windMps, airMotion } = conditions
  return {
    elevationM: toNearest(50, site.elevationM),
    temperatureC: toNearest(1, temperatureC),
    relativeHumidityPct:
      relativeHumidityPct === undefined ? undefined : toNearest(10, relativeHumidityPct),
    windMps: windMps === undefined ? undefined : toNearest(1, windMps),
    airMotion,
  }
}

function toNearest(step: number, value: number): number {
  return Math.round(value / step) * step
}

/** All runs of a revision were normalised together. */
function methodOf([run]: readonly StoredRun[]) {
  return { methodVersion: run!.methodVersion, referenceId: run!.referenceId }
}

function runsByEntry({ body, runs }: ShownRevision): StoredRun[][] {
  return body.entries.map((_, index) => runs.filter((run) => run.entryIndex === index))
}

/** What must not be flown now comes first. */
function cautionsOf({ body, grounded }: ShownRevision): string[] {
  const kinds = body.entries.flatMap(({ runs }) => runs.map(({ kind }) => kind))
  return [...grounded.map((id) => doNotFly(`set-up ${id}`)), ...cautionsForRuns(kinds)]
}

/** Runs as they were given, each with what came out. */
export function withResults<R extends object>(runs: readonly R[], results: readonly Result[]) {
  return runs.map((run, index) => ({ ...run, ...resultOf(results[index]!) }))
}

function resultOf({ normalized, derived, warnings }: Result) {
  return {
    normalized: { ...normalized, budget: [...normalized.budget] },
    derived: derived ?? undefined,
    warnings: [...warnings],
  }
}
