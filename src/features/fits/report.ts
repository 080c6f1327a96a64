import type {
  Downweighted as CoreDownweighted,
  Downweight,
} from '../../core/comparison/downweighted.ts'
import type { FitReport as CoreReport } from '../../core/comparison/fit-report.ts'
import type { Downweighted, FitReport } from './report-schema.ts'

/** ln of ten per cent more mass. */
const TEN_PERCENT = Math.log(1.1)

/** A report as it is shown: logarithms as per cents, sessions by their submission. */
export function showReport(report: CoreReport): FitReport {
  const { sessions, runs, consistency, mass, flaggedSessions, soleEvidenceSessions } = report
  const { scatter, identicalCells } = report
  return {
    influence: {
      flaggedSessions,
      soleEvidenceSessions,
      sessions: sessions.map(({ session, mostMoved, ...rest }) => ({
        submissionId: session,
        ...rest,
        mostMoved:
          mostMoved === null
            ? null
            : {
                a: mostMoved.a,
                b: mostMoved.b,
                changePercent: percent(mostMoved.change),
                inStandardErrors: mostMoved.inStandardErrors,
              },
      })),
    },
    outliers: {
      runs: runs.map(({ session, setup, ...rest }) => ({
        submissionId: session,
        setupId: setup,
        ...rest,
      })),
    },
    consistency: {
      designs: consistency.designs,
      splits: consistency.splits.map(({ difference, standardError, ...split }) => ({
        ...split,
        differencePercent: percent(difference),
        standardErrorPercent: 100 * standardError,
      })),
    },
    mass: mass === null ? null : showMass(mass),
    scatter,
    identicalCells,
  }
}

/** What counts less in a robust fit, as it is shown. */
export function showDownweighted(core: CoreDownweighted): Downweighted {
  const { sessions, cells, runs, counts, moved } = core
  const placed = ({ session, setup, weight }: Downweight) => ({
    submissionId: session,
    setupId: setup!,
    weight,
  })
  return {
    sessions: sessions.map(({ session, weight }) => ({ submissionId: session, weight })),
    setupsOfSessions: cells.map(placed),
    runs: runs.map((run) => ({ ...placed(run), pointer: run.pointer ?? null })),
    counts: { sessions: counts.sessions, setupsOfSessions: counts.cells, runs: counts.runs },
    moved: moved.map(({ setup, change }) => ({ setupId: setup, changePercent: percent(change) })),
  }
}

function showMass({ setups, ...test }: NonNullable<CoreReport['mass']>): FitReport['mass'] {
  return {
    ...test,
    setups: setups.map(({ setup, slope, standardError, pValue }) => ({
      setupId: setup,
      percentPerTenPercentMass: percent(slope * TEN_PERCENT),
      standardErrorPercent: 100 * standardError * TEN_PERCENT,
      pValue,
    })),
  }
}

function percent(difference: number): number {
  return 100 * Math.expm1(difference)
}
