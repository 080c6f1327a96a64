import type { Schemas } from '../../api/client.ts'
import type { MetricReading } from '../../metrics.ts'

type Setup = Schemas['ComparedSetup']

interface Props {
  readonly setups: readonly Setup[]
  readonly metric: MetricReading
  readonly label: string
}

/** The figures of the chart as a table, with the flights they rest on and who had an interest. */
export function EvidenceTable({ setups, metric, label }: Props) {
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: a table that scrolls must be reachable by key
    <section class="table-box" tabIndex={0} aria-label="Figures and what they rest on">
      <table>
        <thead>
          <tr>
            <th scope="col">Setup</th>
            <th scope="col">
              {label}, {metric.sign}
            </th>
            <th scope="col">95 % interval</th>
            <th scope="col">Ranks</th>
            <th scope="col">Sessions</th>
            <th scope="col">Pilots</th>
            <th scope="col">Runs</th>
            <th scope="col">By people with an interest</th>
          </tr>
        </thead>
        <tbody>
          {setups.map((setup) => (
            <Line key={setup.setupId} setup={setup} metric={metric} />
          ))}
        </tbody>
      </table>
    </section>
  )
}

function Line({ setup, metric }: { readonly setup: Setup; readonly metric: MetricReading }) {
  const { value, interval95, rank, evidence, refused, safety } = setup
  const inReader = (stored: number) => metric.write(metric.toReader(stored))
  return (
    <tr>
      <th scope="row">
        <a href={`/setups/${setup.setupId}`}>{setup.name}</a>
        {safety.state === 'doNotFly' && <strong class="stop"> Do not fly</strong>}
        {safety.state === 'advisory' && <strong> Safety advisory</strong>}
        {refused !== undefined && <span class="reason"> {refused.reason}</span>}
      </th>
      <td>{value === null ? '–' : inReader(value)}</td>
      <td>
        {interval95 === null ? '–' : `${inReader(interval95[0])} to ${inReader(interval95[1])}`}
      </td>
      <td>{rank === null ? '–' : spanOf(rank.interval95)}</td>
      <td>{evidence.sessions}</td>
      <td>{evidence.pilots}</td>
      <td>{evidence.runs}</td>
      <td>{interestOf(evidence)}</td>
    </tr>
  )
}

function spanOf([low, high]: readonly [number, number]): string {
  return low === high ? String(low) : `${low} to ${high}`
}

function interestOf({ sessions, interestedSessions }: Setup['evidence']): string {
  if (interestedSessions === 0) return 'none'
  return `${interestedSessions} of ${sessions} sessions`
}
