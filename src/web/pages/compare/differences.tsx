import { useState } from 'preact/hooks'

import { type ForestRow, forest } from '../../../charts/forest.ts'
import { differenceRows } from '../../../charts/setup-rows.ts'
import type { Schemas } from '../../api/client.ts'
import { useAnswer } from '../../api/use-answer.ts'
import { ChoiceField } from '../../components/fields.tsx'
import { AnswerState } from '../../components/notices.tsx'
import { Figure } from '../../components/picture.tsx'
import { differenceUnit, METRIC_WORDS, writeDifference } from '../../metrics.ts'
import type { Shown } from './compare-page.tsx'
import { conditionsOf, type Question } from './question.ts'

/** The interface compares at most this many at once. */
const MOST = 50

interface Props {
  readonly question: Question
  readonly shown: Shown
}

/** Every setup against one of them. A ranking brings no pairs: they are asked for after it. */
export function Differences({ question, shown }: Props) {
  const setups = [...shown.ranked, ...shown.others].slice(0, MOST)
  const ids = setups.map(({ setupId }) => setupId)
  const { fitId } = shown.head
  const asked = useAnswer(
    '/v1/comparisons',
    shown.pairs === null && ids.length >= 2
      ? { query: { ...conditionsOf({ ...question, fitId }), setups: ids.join(',') } }
      : null,
  )
  const pairs = shown.pairs ?? asked.got?.body.pairs ?? null
  const [chosen, setChosen] = useState<string | null>(null)
  if (ids.length < 2) return null
  const against = setups.find(({ setupId }) => setupId === chosen) ?? setups[0]!
  return (
    // A ranking fits on one page of paper without them; two setups named are compared by them.
    <section class={shown.pairs === null ? 'no-print' : ''}>
      <h2>Differences</h2>
      <div class="no-print">
        <ChoiceField
          label="Each against"
          value={against.setupId}
          choices={setups.map(({ setupId, name }) => [setupId, name] as const)}
          onChange={setChosen}
        />
      </div>
      <AnswerState asked={asked} />
      {pairs !== null && (
        <DifferenceFigure
          question={question}
          head={shown.head}
          against={against.name}
          rows={differenceRows(setups, pairs, against.setupId)}
        />
      )}
      {pairs !== null && <Sentences pairs={pairs} againstId={against.setupId} />}
    </section>
  )
}

function DifferenceFigure(props: {
  readonly question: Question
  readonly head: Shown['head']
  readonly against: string
  readonly rows: readonly ForestRow[]
}) {
  const { question, head, against, rows } = props
  const margin = head.equivalenceMarginPercent ?? head.equivalenceMarginDb ?? 0
  const unit = differenceUnit(question.metric)
  const words = METRIC_WORDS[question.metric]
  return (
    <Figure
      caption={`Against ${against}. Within the grey band of ±${margin} ${unit} a difference does not matter in practice; hollow dots are not resolved or do not matter.`}
      draw={(widthPx) =>
        forest(rows, {
          widthPx,
          title: `Differences in ${words.noun} from ${against}`,
          axis: `Difference in ${words.noun}, ${unit}`,
          write: writeDifference,
          zero: 0,
          margin: [-margin, margin],
        })
      }
    />
  )
}

const EVIDENCE_WORDS: Readonly<Record<Schemas['ComparedPair']['evidence'], string>> = {
  direct: 'flown in the same sessions',
  connected: 'linked through setups flown with both',
  additive: 'linked through shared parts only',
  betweenSessions: 'compared across different days only',
  none: 'not linked',
}

/** The table twin of the differences: each pair in the words of the service, and how it is linked. */
function Sentences(props: {
  readonly pairs: Schemas['Comparison']['pairs']
  readonly againstId: string
}) {
  const about = props.pairs.filter(({ a, b }) => a === props.againstId || b === props.againstId)
  return (
    <details class="no-print">
      <summary>In words</summary>
      <table>
        <thead>
          <tr>
            <th scope="col">Finding</th>
            <th scope="col">Evidence</th>
            <th scope="col">Largest doubts</th>
          </tr>
        </thead>
        <tbody>
          {about.map((pair) => (
            <tr key={`${pair.a}${pair.b}`}>
              <td>{pair.sentence}</td>
              <td>{EVIDENCE_WORDS[pair.evidence]}</td>
              <td>
                {(pair.uncertainty ?? [])
                  .slice(0, 2)
                  .map(({ cause, share }) => `${cause} ${Math.round(100 * share)} %`)
                  .join(', ') || '–'}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </details>
  )
}
