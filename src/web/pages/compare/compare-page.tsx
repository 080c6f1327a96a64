import { useRef, useState } from 'preact/hooks'

import type { Schemas } from '../../api/client.ts'
import { useAnswer } from '../../api/use-answer.ts'
import { AnswerState } from '../../components/notices.tsx'
import { SafetyNotices } from '../../components/safety.tsx'
import { readingOf } from '../../metrics.ts'
import { go, usePlace } from '../../router.ts'
import { useReading } from '../../settings.ts'
import { AnswerView } from './answer-view.tsx'
import { PairNotes } from './pair-notes.tsx'
import { addressOf, askedOf, type Question, questionIn } from './question.ts'
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
    Partial<Pick<Schemas['Ranking'], 'sentence' | 'withoutInterested' | 'robust'>>
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
  const names = useNames(shown.answered?.answer ?? null)
  return (
    <>
      <h1 class="no-print">Compare</h1>
      <QuestionForm
        question={question}
        names={names}
        onChange={(next) => go(addressOf(next), { replace: true })}
      />
      {shown.states.map((asked, index) => (
        <AnswerState key={index} asked={asked} />
      ))}
      <article class="answer">
        {/* Read out when it changes; what follows is for whoever wants to know more. */}
        <div aria-live="polite">{shown.answered !== null && <Verdict {...shown.answered} />}</div>
        {shown.answered !== null && <Answer {...shown.answered} onAskAgain={shown.askAgain} />}
      </article>
    </>
  )
}

/** A question with its own answer, also while the answer to the next one is on its way. */
interface Answered {
  readonly question: Question
  readonly answer: Shown
}

/** The one pair that was asked for. */
function onlyPair({ pairs }: Shown) {
  return pairs?.length === 1 ? pairs[0]! : null
}

function Verdict({ question, answer }: Answered) {
  const reading = useReading()
  const pair = onlyPair(answer)
  return (
    <>
      <SafetyNotices setups={[...answer.ranked, ...answer.others]} />
      <p class="verdict" data-testid="verdict">
        {pair?.sentence ??
          verdictOn(answer.head, answer.ranked, readingOf(question.metric, reading))}
      </p>
    </>
  )
}

function Answer(props: Answered & { readonly onAskAgain: () => void }) {
  const { question, answer: shown, onAskAgain } = props
  const reading = useReading()
  const metric = readingOf(question.metric, reading)
  const pair = onlyPair(shown)
  const isEmpty = shown.ranked.length + shown.others.length === 0
  return (
    <>
      {pair !== null && <PairNotes pair={pair} />}
      {isEmpty && (
        <p>
          Two setups flown in one session make a start. <a href="/submit">Submit a test</a>
        </p>
      )}
      {!isEmpty && (
        <AnswerView question={question} shown={shown} metric={metric} onAskAgain={onAskAgain} />
      )}
    </>
  )
}

/** One call for a ranking, one for named setups: the first answer is there after one round trip. */
function useShown(question: Question) {
  const isNamed = question.setups.length >= 2
  const conditions = askedOf(question)
  const ranking = useAnswer(
    '/v1/rankings',
    isNamed ? null : { query: { ...conditions, limit: 50 } },
  )
  const comparison = useAnswer(
    '/v1/comparisons',
    isNamed ? { query: { ...conditions, setups: question.setups.join(',') } } : null,
  )
  const asked = isNamed ? comparison : ranking
  const answer = isNamed
    ? comparison.got && fromComparison(comparison.got.body)
    : ranking.got && fromRanking(ranking.got.body)
  const last = useRef<Answered | null>(null)
  if (!asked.isLoading) last.current = answer && { question, answer }
  return {
    states: [ranking, comparison],
    askAgain: asked.retry,
    answered: last.current,
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
