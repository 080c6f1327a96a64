import { gauge } from '../../../charts/gauge.ts'
import type { Normalized, RunOutcome } from '../../../core/normalise/types.ts'
import { Figure } from '../../components/picture.tsx'
import { type Reading, useReading } from '../../settings.ts'
import { type Dimension, writeNumber } from '../../units.ts'

/** Standard uncertainties on each side that hold 95 % of a normal distribution. */
const COVERAGE = 1.96

interface Words {
  readonly label: string
  readonly dimension?: Dimension
  readonly sign?: string
}

const WORDS: Readonly<Record<Normalized['metric'], Words>> = {
  climbRate: { label: 'Climb rate at 120 kg, sea level, 15 °C', dimension: 'climbRate' },
  fuelFlow: {
    label: 'Fuel flow in level flight at 120 kg, sea level, 15 °C',
    dimension: 'fuelFlow',
  },
  staticThrust: { label: 'Static thrust at sea level, 15 °C', dimension: 'force' },
  soundLevel: { label: 'Sound level', sign: 'dB(A)' },
  electricPower: { label: 'Electric power in level flight at 120 kg, sea level, 15 °C', sign: 'W' },
  sinkRate: { label: 'Sink rate at 120 kg, sea level, 15 °C', dimension: 'climbRate' },
  levelSpeed: { label: 'Airspeed at trim, 120 kg, sea level', dimension: 'speed' },
  tipClearance: { label: 'Propeller clearance', sign: 'mm' },
}

/** What a run comes to, while it is typed: the value, its interval, what makes most of that interval. */
export function RunResult({ outcome }: { readonly outcome: RunOutcome }) {
  const reading = useReading()
  const { normalized } = outcome
  const { label } = WORDS[normalized.metric]
  const show = inReader(normalized, reading)
  const half = COVERAGE * normalized.standardUncertainty
  const [largest] = normalized.budget
  const glide = normalized.glideRatio
  return (
    <output class="result" data-testid="run-result">
      <p class="result-label">{label}</p>
      <p class="result-value">
        {show.write(show.toReader(normalized.value))} {show.sign}
        <small> ± {show.writeSpan(half)} with 95 % certainty</small>
      </p>
      <Figure
        caption=""
        draw={(widthPx) =>
          gauge(
            {
              estimate: show.toReader(normalized.value),
              low: show.toReader(normalized.value - half),
              high: show.toReader(normalized.value + half),
            },
            { widthPx: Math.min(widthPx, 520), title: label, write: show.write },
          )
        }
      />
      {glide !== undefined && <p>Glide ratio of your wing as you fly it: {glide.toFixed(1)}</p>}
      {largest !== undefined && (
        <p class="result-cause">
          Mostly because of: <strong>{largest.source}</strong> ({Math.round(100 * largest.share)} %
          of the doubt)
          {largest.sharedWithinSession &&
            '. It is the same for all runs of the session and drops out of comparisons between them.'}
        </p>
      )}
      {normalized.budget.length > 1 && (
        <details>
          <summary>All causes</summary>
          <table>
            <thead>
              <tr>
                <th scope="col">Cause</th>
                <th scope="col">Alone, ± {show.sign}</th>
                <th scope="col">Share</th>
              </tr>
            </thead>
            <tbody>
              {normalized.budget.map(({ source, standardUncertainty, share }) => (
                <tr key={source}>
                  <td>{source}</td>
                  <td>{show.writeSpan(COVERAGE * standardUncertainty)}</td>
                  <td>{Math.round(100 * share)} %</td>
                </tr>
              ))}
            </tbody>
          </table>
        </details>
      )}
    </output>
  )
}

function inReader({ metric }: Normalized, reading: Reading) {
  const { dimension, sign = '' } = WORDS[metric]
  if (dimension === undefined) {
    const write = (value: number) => writeNumber(value, 1)
    return { sign, toReader: (value: number) => value, write, writeSpan: write }
  }
  const unit = reading.unit(dimension)
  const write = (value: number) => writeNumber(value, unit.decimals)
  const writeSpan = (span: number) => write(unit.toReader(span) - unit.toReader(0))
  return { sign: unit.sign, toReader: unit.toReader, write, writeSpan }
}
