import { type TradeOffPoint, tradeOff } from '../../../charts/trade-off.ts'
import type { Schemas } from '../../api/client.ts'
import { useAnswer } from '../../api/use-answer.ts'
import { Figure } from '../../components/picture.tsx'
import { readingOf } from '../../metrics.ts'
import { useReading } from '../../settings.ts'
import { conditionsOf, type Question } from './question.ts'

type Setup = Schemas['ComparedSetup']

/** Climb against fuel at the same conditions; there when both were measured. */
export function TradeOffSection({ question }: { readonly question: Question }) {
  const climbs = useSetups({ ...question, metric: 'climbRate', fitId: null })
  const burns = useSetups({ ...question, metric: 'fuelFlow', fitId: null })
  const reading = useReading()
  const climb = readingOf('climbRate', reading)
  const burn = readingOf('fuelFlow', reading)
  const points = pointsOf(climbs, burns, { climb: climb.toReader, burn: burn.toReader })
  if (points.length < 2) return null
  return (
    <section class="no-print">
      <h2>Climb against fuel</h2>
      <p>
        Up and to the left is better. The line joins those that no other beats in both. Shaded:
        where the truth lies with 95 % certainty, climb and fuel taken as independent of one
        another.
      </p>
      <Figure
        caption="The numbers are those of the list below."
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
        {points.map((point) => (
          <li key={point.name}>
            {point.name}: {climb.write(point.climb)} {climb.sign}, {burn.write(point.burn)}{' '}
            {burn.sign}
            {point.isUnsafe && <strong class="stop"> Do not fly</strong>}
          </li>
        ))}
      </ol>
    </section>
  )
}

function useSetups(question: Question): readonly Setup[] {
  const isNamed = question.setups.length >= 2
  const conditions = conditionsOf(question)
  const ranking = useAnswer(
    '/v1/rankings',
    isNamed ? null : { query: { ...conditions, limit: 50 } },
  )
  const comparison = useAnswer(
    '/v1/comparisons',
    isNamed ? { query: { ...conditions, setups: question.setups.join(',') } } : null,
  )
  const { ranked = [], setAside = [] } = ranking.got?.body ?? {}
  return isNamed ? (comparison.got?.body.setups ?? []) : [...ranked, ...setAside]
}

function pointsOf(
  climbs: readonly Setup[],
  burns: readonly Setup[],
  toReader: { readonly climb: (v: number) => number; readonly burn: (v: number) => number },
): TradeOffPoint[] {
  return climbs.flatMap((climb) => {
    const burn = burns.find(({ setupId }) => setupId === climb.setupId)
    if (climb.value === null || burn?.value == null) return []
    return [
      {
        name: climb.name,
        climb: toReader.climb(climb.value),
        climbU: toReader.climb(climb.standardUncertainty ?? 0),
        burn: toReader.burn(burn.value),
        burnU: toReader.burn(burn.standardUncertainty ?? 0),
        isUnsafe: climb.safety.state === 'doNotFly',
      },
    ]
  })
}
