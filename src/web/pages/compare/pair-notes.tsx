import type { Schemas } from '../../api/client.ts'
import { writeDifference } from '../../metrics.ts'
import { RefusedPair } from './refusal-words.tsx'

type Pair = Schemas['ComparedPair']

/** What is said below the verdict on a pair: the same in other quantities, what it costs, what comes next. */
export function PairNotes({ pair }: { readonly pair: Pair }) {
  return (
    <>
      <RefusedPair pair={pair} />
      <Equivalents pair={pair} />
      {pair.cost !== undefined && <p>{pair.cost.sentence}</p>}
      <NextSession pair={pair} />
    </>
  )
}

const EQUIVALENT_NAMES = [
  ['climbRatePercent', 'climb rate'],
  ['climbThrustPercent', 'thrust in the climb'],
  ['inducedPowerPercent', 'useful power'],
  ['fuelFlowPercent', 'fuel flow'],
  ['electricPowerPercent', 'electric power'],
  ['endurancePercent', 'time from the same tank or battery'],
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

/** One evening differs from the mean of many: nobody should take that for a contradiction. */
function NextSession({ pair }: { readonly pair: Pair }) {
  const { nextSession95Percent, nextSession95Db } = pair
  const span = nextSession95Percent ?? nextSession95Db
  if (span === undefined) return null
  const unit = nextSession95Percent === undefined ? 'dB' : '%'
  const [low, high] = span.map(writeDifference)
  return (
    <p>
      On one evening with both, whoever flies, expect to see between {low} and {high} {unit}: days
      and pilots differ that much.
    </p>
  )
}
