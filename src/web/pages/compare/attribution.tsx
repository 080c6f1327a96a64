import { type Step, waterfall } from '../../../charts/waterfall.ts'
import type { Schemas } from '../../api/client.ts'
import { useAnswer } from '../../api/use-answer.ts'
import { AnswerState } from '../../components/notices.tsx'
import { Figure } from '../../components/picture.tsx'
import { differenceUnit, METRIC_WORDS, writeDifference } from '../../metrics.ts'
import { steadiness } from '../../readings.ts'
import { askedOf, type Question } from './question.ts'

type Answer = Schemas['Attribution']

const PART_WORDS: Readonly<Record<Schemas['AttributionLine']['part'], string>> = {
  powerplant: 'Engine',
  propeller: 'Propeller',
  frame: 'Frame',
  together: 'Together',
  unexplained: 'Unexplained',
}

/** How much of a difference is the engine, the propeller, the frame. For two named setups. */
export function AttributionSection({ question }: { readonly question: Question }) {
  const [to, from] = question.setups
  const asked = useAnswer(
    '/v1/attributions',
    question.setups.length === 2 ? { query: { ...askedOf(question), from: from!, to: to! } } : null,
  )
  if (question.setups.length !== 2) return null
  const answer = asked.got?.body
  return (
    <section>
      <h2 id="parts">What brings the difference</h2>
      <AnswerState asked={asked} />
      {answer !== undefined && <Explained answer={answer} question={question} />}
    </section>
  )
}

function Explained({ answer, question }: { readonly answer: Answer; readonly question: Question }) {
  const unit = differenceUnit(question.metric)
  const noun = METRIC_WORDS[question.metric].noun
  const isLevel = unit === 'dB'
  const then = isLevel
    ? (before: number, change: number) => before + change
    : (before: number, change: number) => 100 * ((1 + before / 100) * (1 + change / 100) - 1)
  return (
    <>
      <p>
        From {answer.from.name} to {answer.to.name}.
      </p>
      {answer.lines.length > 0 && (
        <Figure
          caption={`Each step starts where the one before ended${isLevel ? '' : '; per cents multiply'}. Line: 95 % interval of the step.`}
          draw={(widthPx, isPaper) =>
            waterfall(answer.lines.map(stepOf), {
              widthPx,
              isDense: isPaper,
              title: `Change in ${noun}`,
              axis: `Change in ${noun}, ${unit}`,
              write: writeDifference,
              then,
              total: totalOf(answer),
            })
          }
        />
      )}
      <ul class="no-print">
        <li>{answer.total.sentence}</li>
        {answer.lines.map((line) => (
          <li key={line.part + line.sentence}>{line.sentence}</li>
        ))}
      </ul>
      <p>{steadiness(answer.lines.map((line) => ({ ...line, name: PART_WORDS[line.part] })))}</p>
    </>
  )
}

function stepOf(line: Schemas['AttributionLine']): Step {
  const [low, high] = line.interval95Percent ?? line.interval95Db ?? []
  const names = [line.from?.name, line.to?.name].filter((name) => name !== undefined)
  const detail = line.refused?.reason ?? (line.same ? 'the same in both' : names.join(' → '))
  return {
    label: PART_WORDS[line.part],
    detail,
    change: line.differencePercent ?? line.differenceDb ?? null,
    low: low ?? null,
    high: high ?? null,
  }
}

function totalOf({ total }: Answer): Step {
  const [low, high] = total.interval95Percent ?? total.interval95Db ?? []
  return {
    label: 'Altogether',
    detail: total.refused?.reason ?? 'all parts',
    change: total.differencePercent ?? total.differenceDb ?? null,
    low: low ?? null,
    high: high ?? null,
  }
}
