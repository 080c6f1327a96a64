import { gauge } from '../../../charts/gauge.ts'
import type { RunOutcome } from '../../../core/normalise/types.ts'
import { Figure } from '../../components/picture.tsx'
import { COVERAGE, inReader, RESULT_WORDS } from '../../components/result-text.ts'
import { useReading } from '../../settings.ts'

/** What a run comes to, while it is typed: the value, its interval, what makes most of that interval. */
export function RunResult({ outcome }: { readonly outcome: RunOutcome }) {
  const reading = useReading()
  const { normalized } = outcome
  const { label } = RESULT_WORDS[normalized.metric]
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
        twin={null}
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
