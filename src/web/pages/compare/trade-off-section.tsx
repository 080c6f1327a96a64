import { useEffect } from 'preact/hooks'

import { type TradeOffFigure, type TradeOffPoint, tradeOff } from '../../../charts/trade-off.ts'
import type { Schemas } from '../../api/client.ts'
import { useAnswer } from '../../api/use-answer.ts'
import { AnswerState } from '../../components/notices.tsx'
import { Figure } from '../../components/picture.tsx'
import { SetupName } from '../../components/setup-name.tsx'
import { readingOf } from '../../metrics.ts'
import { useReading } from '../../settings.ts'
import { type Question, stateOf, type TradeOffFits, testsOf } from './question.ts'
import { steadiness } from './readings.ts'

type TradeOff = Schemas['TradeOff']

interface Props {
  readonly question: Question
  /** Says which fits it rests on, for the link to this answer. */
  readonly onFits: (fits: TradeOffFits) => void
}

/** Climb against fuel at the same conditions, with who is beaten in both by nobody. */
export function TradeOffSection({ question, onFits }: Props) {
  const isNamed = question.setups.length >= 2
  const asked = useAnswer('/v1/trade-offs', {
    query: {
      ...stateOf(question),
      ...testsOf(question),
      ...question.tradeOffFits,
      ...(isNamed ? { setups: question.setups.join(',') } : {}),
    },
  })
  const answer = asked.got?.body
  useEffect(() => {
    if (answer !== undefined) onFits({ climbFitId: answer.climbFitId, fuelFitId: answer.fuelFitId })
  }, [answer?.climbFitId, answer?.fuelFitId])
  return (
    <section class="no-print">
      <h2 id="trade-off">Climb against fuel</h2>
      <AnswerState asked={asked} />
      {answer !== undefined && <Weighed answer={answer} />}
    </section>
  )
}

function Weighed({ answer }: { readonly answer: TradeOff }) {
  const reading = useReading()
  const climb = readingOf('climbRate', reading)
  const burn = readingOf('fuelFlow', reading)
  const points = answer.setups.map((setup) =>
    pointOf(setup, { climb: climb.toReader, burn: burn.toReader }),
  )
  return (
    <>
      {points.length < 2 ? (
        <p>
          Fewer than two of these setups have both climbs and burns that can be compared, so there
          is nothing to weigh.
        </p>
      ) : (
        <>
          <p>
            Up and to the left is better. The line joins those that no other beats in both, by the
            estimates. Shaded: where the truth lies with 95 % certainty, climb and fuel taken as
            independent of one another.
          </p>
          <Figure
            caption="Numbers are those of the list. Per cents there say how likely it is that no other one beats it in both."
            draw={(widthPx) =>
              tradeOff(points, {
                widthPx,
                burnAxis: `Fuel, ${burn.sign}`,
                climbAxis: `Climb, ${climb.sign}`,
                write: (value) => value.toFixed(2),
              })
            }
          />
          <ol class="key">
            {answer.setups.map(({ setupId, name, probabilityOnFront }) => (
              <li key={setupId}>
                <SetupName setup={{ setupId, name }} />: {Math.round(100 * probabilityOnFront)} %
              </li>
            ))}
          </ol>
          <p>{steadiness(answer.setups)}</p>
        </>
      )}
      <NotShown answer={answer} />
    </>
  )
}

/** Who is missing from the plot, and why. */
function NotShown({ answer: { leftOut, setAside } }: { readonly answer: TradeOff }) {
  if (leftOut.length + setAside.length === 0) return null
  return (
    <details>
      <summary>Not in this plot: {leftOut.length + setAside.length}</summary>
      <ul>
        {setAside.map(({ setupId, name }) => (
          <li key={setupId}>
            <a href={`/setups/${setupId}`}>{name}</a> <strong class="stop">Do not fly</strong>
          </li>
        ))}
        {leftOut.map(({ setupId, name, refused }) => (
          <li key={setupId}>
            <a href={`/setups/${setupId}`}>{name}</a>: {refused.reason}
          </li>
        ))}
      </ul>
    </details>
  )
}

type ToReader = (value: number) => number

function pointOf(
  setup: Schemas['TradeOffSetup'],
  toReader: { readonly climb: ToReader; readonly burn: ToReader },
): TradeOffPoint {
  return {
    name: setup.name,
    climb: figureOf(setup.climbRateMps, toReader.climb),
    burn: figureOf(setup.fuelFlowLPerH, toReader.burn),
    isOnFront: setup.onFront,
    chanceOnFront: setup.probabilityOnFront,
  }
}

function figureOf(
  { value, interval95: [low, high] }: Schemas['TradeOffSetup']['climbRateMps'],
  toReader: ToReader,
): TradeOffFigure {
  return { estimate: toReader(value), low: toReader(low), high: toReader(high) }
}
