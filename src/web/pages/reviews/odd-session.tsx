import { forest } from '../../../charts/forest.ts'
import type { Schemas } from '../../api/client.ts'
import { useAnswer } from '../../api/use-answer.ts'
import { AnswerState } from '../../components/notices.tsx'
import { Figure } from '../../components/picture.tsx'
import { METRIC_WORDS, type Metric, readingOf } from '../../metrics.ts'
import { useReading } from '../../settings.ts'
import { type KnownSetup, oddRows } from './odd-rows.ts'
import { inWords, placesIn } from './review-words.ts'
import { TestAsSent } from './test-as-sent.tsx'

type Full = Schemas['FullSubmission']
type Review = Schemas['Review']

/** Mass of the reference state that runs are brought to [kg]. */
const REFERENCE_KG = 120

interface Props {
  readonly submissionId: string
  readonly review: Review
}

/** The test a review is about: what is odd in words, its runs beside what all tests say, and as it was sent. */
export function OddSession({ submissionId, review }: Props) {
  const asked = useAnswer('/v1/submissions/{id}', { path: { id: submissionId }, asMe: true })
  const test = asked.got?.body
  const places = placesIn(review.text)
  const metric = metricOf(test?.view === 'full' ? test : null, places[0])
  const known = useKnown(metric)
  if (test?.view !== 'full') {
    return (
      <>
        <blockquote>{review.text}</blockquote>
        <AnswerState asked={asked} />
      </>
    )
  }
  const nameOf = (setupId: string) =>
    known.find((setup) => setup.setupId === setupId)?.name ?? 'the setup'
  return (
    <>
      <blockquote>
        {inWords(review.text, (entry) => nameOf(test.entries[entry]?.setupId ?? ''))}
      </blockquote>
      {review.revision !== null && review.revision !== test.currentRevision && (
        <p class="notice">
          It is about revision {review.revision}; the pilot has corrected it since, and revision{' '}
          {test.currentRevision} is shown.
        </p>
      )}
      {metric !== null && known.length > 0 && (
        <OddChart test={test} metric={metric} known={known} places={places} />
      )}
      <TestAsSent test={test} nameOf={nameOf} />
    </>
  )
}

function metricOf(test: Full | null, odd: { entry: number; run: number } | undefined) {
  if (test === null) return null
  const run = test.entries[odd?.entry ?? 0]?.runs[odd?.run ?? 0]
  const metric = run?.normalized.metric
  return metric !== undefined && metric in METRIC_WORDS ? (metric as Metric) : null
}

/** What all tests say of each setup, at the state runs are brought to. */
function useKnown(metric: Metric | null): readonly KnownSetup[] {
  const asked = useAnswer(
    '/v1/rankings',
    metric === null ? null : { query: { metric, allUpMassKg: REFERENCE_KG, limit: 200 } },
  )
  const { ranked = [], unranked = [], setAside = [] } = asked.got?.body ?? {}
  return [...ranked, ...unranked, ...setAside]
}

function OddChart(props: {
  readonly test: Full
  readonly metric: Metric
  readonly known: readonly KnownSetup[]
  readonly places: ReturnType<typeof placesIn>
}) {
  const { test, metric, known, places } = props
  const reading = readingOf(metric, useReading())
  const rows = oddRows(test, { metric, known, odd: places, toReader: reading.toReader })
  if (rows.length === 0) return null
  const words = METRIC_WORDS[metric]
  return (
    <Figure
      caption="Each run brought to the same air and mass, with its 95 % interval, below what all tests say of its setup. A standard deviation is the usual spread between runs: beyond three is rare."
      draw={(widthPx) =>
        forest(rows, {
          widthPx,
          title: `${words.label}: this session beside all tests`,
          axis: `${words.label}, ${reading.sign}`,
          rowsAre: 'Run or setup',
          write: reading.write,
        })
      }
    />
  )
}
