import { probabilityText } from '../../../core/comparison/probability-text.ts'
import type { Schemas } from '../../api/client.ts'
import { METRIC_WORDS, type MetricReading } from '../../metrics.ts'

type Setup = Schemas['ComparedSetup']
type Head = Pick<Schemas['Ranking'], 'metric'> & Partial<Pick<Schemas['Ranking'], 'sentence'>>

/** The answer in one sentence or two, before any figure. */
export function verdictOn(
  { metric, sentence }: Head,
  ranked: readonly Setup[],
  { quantity }: Pick<MetricReading, 'quantity'>,
): string {
  const words = METRIC_WORDS[metric]
  const [first] = ranked
  if (first === undefined || first.rank === null) {
    return `No setups can be ranked by ${words.noun} yet: the flights do not link them.`
  }
  const figure =
    first.value === null || first.interval95 === null
      ? ''
      : ` ${quantity(first.value)}, between ${quantity(first.interval95[0])} and ${quantity(first.interval95[1])} with 95 % certainty.`
  if (sentence !== undefined) return figure === '' ? sentence : `${sentence} It stands at${figure}`
  const rivals = ranked.filter(({ rank }, index) => index > 0 && rank?.interval95[0] === 1)
  if (ranked.length === 1) return `${first.name} is the only one that can be ranked:${figure}`
  if (rivals.length === 0) {
    const chance = probabilityText(first.rank.probabilityBest)
    return `${first.name} ${words.best}:${figure} The chance that it is the best of these ${ranked.length} is ${chance}.`
  }
  const who =
    rivals.length === 1
      ? rivals[0]!.name
      : `${rivals.length} others (${rivals.map(({ name }) => name).join('; ')})`
  return `${first.name} leads, but the flights so far do not rule out that ${who} ${rivals.length === 1 ? 'is' : 'are'} as good:${figure}`
}
