import type { VNode } from 'preact'
import { useState } from 'preact/hooks'

import { type ForestRow, forest } from '../../../charts/forest.ts'
import { differenceRows } from '../../../charts/setup-rows.ts'
import { useAnswer } from '../../api/use-answer.ts'
import { ChoiceField } from '../../components/fields.tsx'
import { AnswerState } from '../../components/notices.tsx'
import { Figure } from '../../components/picture.tsx'
import { differenceUnit, METRIC_WORDS, writeDifference } from '../../metrics.ts'
import type { Shown } from './compare-page.tsx'
import { PairTable } from './pair-table.tsx'
import { askedOf, type Question } from './question.ts'

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
      ? { query: { ...askedOf({ ...question, fitId }), setups: ids.join(',') } }
      : null,
  )
  const pairs = shown.pairs ?? asked.got?.body.pairs ?? null
  const [chosen, setChosen] = useState<string | null>(null)
  if (ids.length < 2) return null
  // One pair is drawn the way its sentence says it: the first against the second.
  const usual = shown.pairs?.length === 1 ? shown.pairs[0]!.b : ids[0]
  const against = setups.find(({ setupId }) => setupId === (chosen ?? usual)) ?? setups[0]!
  return (
    // A ranking fits on one page of paper without them; two setups named are compared by them.
    <section class={shown.pairs === null ? 'no-print' : ''}>
      <h2 id="differences">Differences</h2>
      {ids.length > 2 && (
        <div class="no-print">
          <ChoiceField
            label="Each against"
            value={against.setupId}
            choices={setups.map(({ setupId, name }) => [setupId, name] as const)}
            onChange={setChosen}
          />
        </div>
      )}
      <AnswerState asked={asked} />
      {pairs !== null && (
        <DifferenceFigure
          question={question}
          head={shown.head}
          against={against.name}
          rows={differenceRows(setups, pairs, against.setupId)}
          twin={<PairTable pairs={pairs} againstId={against.setupId} setups={setups} />}
        />
      )}
    </section>
  )
}

function DifferenceFigure(props: {
  readonly question: Question
  readonly head: Shown['head']
  readonly against: string
  readonly rows: readonly ForestRow[]
  readonly twin: VNode
}) {
  const { question, head, against, rows, twin } = props
  const margin = head.equivalenceMarginPercent ?? head.equivalenceMarginDb ?? 0
  const unit = differenceUnit(question.metric)
  const words = METRIC_WORDS[question.metric]
  return (
    <Figure
      caption={`Against ${against}. Within the grey band of ±${margin} ${unit} a difference does not matter in practice; hollow dots are not resolved or do not matter.`}
      twin={twin}
      draw={(widthPx, isPaper) =>
        forest(rows, {
          widthPx,
          isDense: isPaper,
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
