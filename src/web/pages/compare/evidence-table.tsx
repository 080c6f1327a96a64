import type { Schemas } from '../../api/client.ts'
import { FiguresTable } from '../../components/figures-table.tsx'
import { SetupName } from '../../components/setup-name.tsx'
import type { MetricReading } from '../../metrics.ts'
import { counted } from '../../units.ts'
import { RefusalWords } from './refusal-words.tsx'

type Setup = Schemas['ComparedSetup']

interface Props {
  readonly setups: readonly Setup[]
  readonly metric: MetricReading
  readonly label: string
}

/** The figures of the chart as a table, with the flights they rest on and who had an interest. */
export function EvidenceTable({ setups, metric, label }: Props) {
  return (
    <FiguresTable
      label="Figures and what they rest on"
      heads={[
        'Setup',
        `${label}, ${metric.sign}`,
        '95 % interval',
        'Ranks',
        'Rests on',
        'With an interest',
      ]}
      rows={setups.map((setup) => ({
        key: setup.setupId,
        head: (
          <>
            <SetupName setup={setup} />
            {setup.refused !== undefined && <RefusalWords refused={setup.refused} />}
          </>
        ),
        cells: cellsOf(setup, metric),
      }))}
    />
  )
}

function cellsOf({ value, interval95, rank, evidence }: Setup, metric: MetricReading): string[] {
  const inReader = (stored: number) => metric.write(metric.toReader(stored))
  return [
    value === null ? '–' : inReader(value),
    interval95 === null ? '–' : `${inReader(interval95[0])} to ${inReader(interval95[1])}`,
    rank === null ? '–' : spanOf(rank.interval95),
    restsOn(evidence),
    interestOf(evidence),
  ]
}

function spanOf([low, high]: readonly [number, number]): string {
  return low === high ? String(low) : `${low} to ${high}`
}

function restsOn({ runs, sessions, pilots }: Setup['evidence']): string {
  return `${counted(runs, 'run')}, ${counted(sessions, 'session')}, ${counted(pilots, 'pilot')}`
}

function interestOf({ sessions, interestedSessions }: Setup['evidence']): string {
  if (interestedSessions === 0) return 'none'
  return `${interestedSessions} of ${counted(sessions, 'session')}`
}
