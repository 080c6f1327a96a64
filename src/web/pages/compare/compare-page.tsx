import { useState } from 'preact/hooks'

import type { Schemas } from '../../api/client.ts'
import { useAnswer } from '../../api/use-answer.ts'
import { AnswerState } from '../../components/notices.tsx'
import { SafetyNotices } from '../../components/safety.tsx'
import { readingOf } from '../../metrics.ts'
import { go, usePlace } from '../../router.ts'
import { useReading } from '../../settings.ts'
import { AnswerView } from './answer-view.tsx'
import { addressOf, conditionsOf, type Question, questionIn } from './question.ts'
import { QuestionForm } from './question-form.tsx'
import { verdictOn } from './verdict.ts'

type Setup = Schemas['ComparedSetup']

/** What both kinds of answer come to. */
export interface Shown {
  readonly head: Pick<
    Schemas['Ranking'],
    'fitId' | 'metric' | 'unit' | 'better' | 'conditions' | 'cautions' | 'otherFits'
  > &
    Pick<Schemas['Comparison'], 'equivalenceMarginPercent' | 'equivalenceMarginDb'> &
    Partial<Pick<Schemas['Ranking'], 'sentence'>>
  readonly ranked: readonly Setup[]
  /** Not ranked, each with the reason why not. */
  readonly others: readonly Setup[]
  readonly pairs: Schemas['Comparison']['pairs'] | null
}

/** How the setups stand at the reader's conditions: the sentence first, then what it rests on. */
export function ComparePage() {
  const { query } = usePlace()
  const question = questionIn(query)
  const shown = useShown(question)
  const names = useNames(shown.answer)
  return (
    <>
      <h1>Compare</h1>
      <QuestionForm
        question={question}
        names={names}
        onChange={(next) => go(addressOf(next), { replace: true })}
      />
      {shown.states.map((asked, index) => (
        <AnswerState key={index} asked={asked} />
      ))}
      {shown.answer !== null && <Answer question={question} shown={shown.answer} />}
    </>
  )
}

function Answer({ question, shown }: { readonly question: Question; readonly shown: Shown }) {
  const reading = useReading()
  const metric = readingOf(question.metric, reading)
  const [pair] = shown.pairs ?? []
  const isOnePair = shown.pairs?.length === 1 && pair !== undefined
  return (
    <article class={isOnePair ? 'answer-pair' : ''} aria-live="polite">
      <SafetyNotices setups={[...shown.ranked, ...shown.others]} />
      <p class="verdict" data-testid="verdict">
        {isOnePair ? pair.sentence : verdictOn(shown.head, shown.ranked, metric)}
      </p>
      {isOnePair && <Equivalents pair={pair} />}
      <AnswerView question={question} shown={shown} metric={metric} />
    </article>
  )
}

const EQUIVALENT_NAMES = [
  ['climbRatePercent', 'climb rate'],
  ['climbThrustPercent', 'thrust in the climb'],
  ['inducedPowerPercent', 'useful power'],
  ['fuelFlowPercent', 'fuel flow'],
  ['endurancePercent', 'time from the same tank'],
] as const

/** The percents that are often taken for one another. */
function Equivalents({ pair }: { readonly pair: Schemas['ComparedPair'] }) {
  const parts = EQUIVALENT_NAMES.flatMap(([key, name]) => {
    const value = pair.equivalents?.[key]
    return value === undefined
      ? []
      : [`${value > 0 ? '+' : '−'}${Math.abs(value).toFixed(1)} % ${name}`]
  })
  if (parts.length < 2) return null
  return <p>The same difference is {parts.join(', ')}.</p>
}

/** One call for a ranking, one for named setups: the first answer is there after one round trip. */
function useShown(question: Question) {
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
  return {
    states: [ranking, comparison],
    answer: isNamed
      ? comparison.got && fromComparison(comparison.got.body)
      : ranking.got && fromRanking(ranking.got.body),
  }
}

function fromRanking({ ranked, unranked, setAside, ...head }: Schemas['Ranking']): Shown {
  return { head, ranked, others: [...setAside, ...unranked], pairs: null }
}

function fromComparison({ setups, pairs, ...head }: Schemas['Comparison']): Shown {
  const inOrder = (setup: Setup) => setup.rank?.pScore ?? -1
  const ranked = setups.filter(({ rank }) => rank !== null).sort((a, b) => inOrder(b) - inOrder(a))
  return { head, ranked, others: setups.filter(({ rank }) => rank === null), pairs }
}

/** Names as answers brought them, so that a chosen setup keeps its name while the next is on its way. */
function useNames(answer: Shown | null): ReadonlyMap<string, string> {
  const [names] = useState(() => new Map<string, string>())
  for (const { setupId, name } of [...(answer?.ranked ?? []), ...(answer?.others ?? [])]) {
    names.set(setupId, name)
  }
  return names
}
