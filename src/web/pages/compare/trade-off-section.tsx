import { type TradeOffFigure, type TradeOffPoint, tradeOff } from '../../../charts/trade-off.ts'
import { probabilityText } from '../../../core/comparison/probability-text.ts'
import type { Schemas } from '../../api/client.ts'
import { type Asked, useAnswer } from '../../api/use-answer.ts'
import { AnswerState } from '../../components/notices.tsx'
import { Figure } from '../../components/picture.tsx'
import { SetupName } from '../../components/setup-name.tsx'
import { readingOf } from '../../metrics.ts'
import { steadiness } from '../../readings.ts'
import { useReading } from '../../settings.ts'
import { type Answered, pairedFits, stateOf, type TradeOffFits, testsOf } from './question.ts'

type TradeOff = Schemas['TradeOff']

/** Climb against fuel of the same setups at the same conditions, from the fit of the answer itself. */
export function useTradeOff(answered: Answered): Asked<TradeOff> {
  const { question } = answered
  const isNamed = question.setups.length >= 2
  return useAnswer('/v1/trade-offs', {
    query: {
      ...stateOf(question),
      ...testsOf(question),
      ...pairedFits(answered),
      ...(isNamed ? { setups: question.setups.join(',') } : {}),
    },
  })
}

/** Which fits it rests on, for a link to exactly this answer; null while it is not there. */
export function fitsOf({ got }: Asked<TradeOff>): TradeOffFits | null {
  return got && { climbFitId: got.body.climbFitId, fuelFitId: got.body.fuelFitId }
}

/** Who is beaten in both by nobody. */
export function TradeOffSection({ asked }: { readonly asked: Asked<TradeOff> }) {
  const answer = asked.got?.body
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
                <SetupName setup={{ setupId, name }} />:{' '}
                <span class="whole">{probabilityText(probabilityOnFront)}</span>
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
