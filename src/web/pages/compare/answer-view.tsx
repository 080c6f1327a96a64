import { forest } from '../../../charts/forest.ts'
import { rankRows, valueRows } from '../../../charts/setup-rows.ts'
import { Jumps } from '../../components/jumps.tsx'
import { Figure } from '../../components/picture.tsx'
import { METRIC_WORDS, type MetricReading } from '../../metrics.ts'
import { useReading } from '../../settings.ts'
import { AttributionSection } from './attribution.tsx'
import type { Shown } from './compare-page.tsx'
import { Differences } from './differences.tsx'
import { EvidenceTable } from './evidence-table.tsx'
import { OtherFits } from './other-fits.tsx'
import type { Question } from './question.ts'
import { Report } from './report.tsx'
import { standOf } from './stands.ts'
import { TankSection } from './tank-section.tsx'
import { fitsOf, TradeOffSection, useTradeOff } from './trade-off-section.tsx'

interface Props {
  readonly question: Question
  readonly shown: Shown
  readonly metric: MetricReading
  readonly onAskAgain: () => void
}

/** As many fit on one page of paper with all that belongs to them. */
const ON_PAPER = 12

/** Everything an answer holds, from what is asked first to what it rests on. */
export function AnswerView({ question, shown, metric, onAskAgain }: Props) {
  const words = METRIC_WORDS[question.metric]
  const setups = [...shown.ranked, ...shown.others]
  const tradeOff = useTradeOff({ question, fitId: shown.head.fitId })
  const stand = standOf(shown)
  return (
    <>
      <ConditionsLine question={question} shown={shown} />
      <Jumps label="Parts of the answer" />
      <section>
        <h2 id="values">{words.label}</h2>
        <Figure
          caption="Dot: the estimate. Bar: where the truth lies with 95 % certainty."
          twin={<EvidenceTable setups={setups} metric={metric} label={words.label} />}
          draw={(widthPx, isPaper) =>
            forest(valueRows(isPaper ? setups.slice(0, ON_PAPER) : setups, metric.toReader), {
              widthPx,
              isDense: isPaper,
              title: words.label,
              axis: `${words.label}, ${metric.sign}`,
              write: metric.write,
            })
          }
        />
        {setups.length > ON_PAPER && (
          <p class="only-print">
            The first {ON_PAPER} of {setups.length}: the link below shows all of them.
          </p>
        )}
      </section>
      {stand !== null && <OtherFits {...stand} onAskAgain={onAskAgain} />}
      <Differences question={question} shown={shown} />
      <AttributionSection question={question} />
      {shown.ranked.length > 1 && (
        <section class="no-print">
          <h2 id="ranks">Ranks</h2>
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
      <TradeOffSection asked={tradeOff} />
      <TankSection question={question} shown={shown} tradeOff={tradeOff} />
      <section>
        <h2 id="cautions">Cautions</h2>
        <ul>
          {shown.head.cautions.map((caution) => (
            <li key={caution}>{caution}</li>
          ))}
        </ul>
      </section>
      <Report
        question={question}
        exactly={{ ...question, fitId: shown.head.fitId, tradeOffFits: fitsOf(tradeOff) }}
      />
    </>
  )
}

function ConditionsLine({ question, shown }: Pick<Props, 'question' | 'shown'>) {
  const { quantity } = useReading()
  const { allUpMassKg, elevationM, temperatureC, assumed } = shown.head.conditions
  return (
    <details class="conditions">
      <summary>
        At {quantity('mass', allUpMassKg)} all-up, {quantity('height', elevationM)},{' '}
        {quantity('temperature', temperatureC)}
        {question.excludeInterested && '; without tests by people with an interest'}
        {question.evidence === 'class' && '; only tests of this mass class'}
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
