import { forest } from '../../../charts/forest.ts'
import { rankRows, valueRows } from '../../../charts/setup-rows.ts'
import { Figure } from '../../components/picture.tsx'
import { METRIC_WORDS, type MetricReading } from '../../metrics.ts'
import { useReading } from '../../settings.ts'
import { AttributionSection } from './attribution.tsx'
import type { Shown } from './compare-page.tsx'
import { Differences } from './differences.tsx'
import { EvidenceTable } from './evidence-table.tsx'
import type { Question } from './question.ts'
import { Report } from './report.tsx'
import { TankSection } from './tank-section.tsx'
import { TradeOffSection } from './trade-off-section.tsx'

interface Props {
  readonly question: Question
  readonly shown: Shown
  readonly metric: MetricReading
}

/** Everything an answer holds, from what is asked first to what it rests on. */
export function AnswerView({ question, shown, metric }: Props) {
  const words = METRIC_WORDS[question.metric]
  const setups = [...shown.ranked, ...shown.others]
  return (
    <>
      <ConditionsLine shown={shown} />
      <section>
        <h2>{words.label}</h2>
        <Figure
          caption="Dot: the estimate. Bar: where the truth lies with 95 % certainty."
          draw={(widthPx) =>
            forest(valueRows(setups, metric.toReader), {
              widthPx,
              title: words.label,
              axis: `${words.label}, ${metric.sign}`,
              write: metric.write,
            })
          }
        />
        <EvidenceTable setups={setups} metric={metric} label={words.label} />
      </section>
      <Differences question={question} shown={shown} />
      <AttributionSection question={question} />
      {shown.ranked.length > 1 && (
        <section class="no-print">
          <h2>Ranks</h2>
          <p>
            Bars show the ranks a setup may really have. Where bars overlap, the order may change
            with more flights.
          </p>
          <Figure
            caption="Dot: the middle rank. Bar: ranks with 95 % certainty."
            draw={(widthPx) =>
              forest(rankRows(shown.ranked), {
                widthPx,
                title: 'Ranks',
                axis: `Rank by ${words.noun}, 1 is best`,
                write: (rank) => String(Math.round(rank)),
                positions: shown.ranked.length,
              })
            }
          />
        </section>
      )}
      <TradeOffSection question={question} />
      <TankSection question={question} shown={shown} />
      <section>
        <h2>Cautions</h2>
        <ul>
          {shown.head.cautions.map((caution) => (
            <li key={caution}>{caution}</li>
          ))}
        </ul>
      </section>
      <Report question={question} fitId={shown.head.fitId} />
    </>
  )
}

function ConditionsLine({ shown }: Pick<Props, 'shown'>) {
  const { quantity } = useReading()
  const { allUpMassKg, elevationM, temperatureC, assumed } = shown.head.conditions
  return (
    <details class="conditions">
      <summary>
        At {quantity('mass', allUpMassKg)} all-up, {quantity('height', elevationM)},{' '}
        {quantity('temperature', temperatureC)}
      </summary>
      <p>Taken for granted, because the question left it open:</p>
      <ul>
        {assumed.map((sentence) => (
          <li key={sentence}>{sentence}</li>
        ))}
      </ul>
    </details>
  )
}
