import type { Conditions } from '../../contract/conditions.ts'
import { METRIC_FACTS, type Metric, quantityOf } from '../../core/comparison/metric.ts'
import { conditionsOf } from '../../db/asked-conditions.ts'
import type { SetupFacts } from '../../db/catalogue-facts.ts'
import type { Database } from '../../db/client.ts'
import { chooseFits, type FitSources } from '../../db/fit-choice.ts'
import type { AskedQuestion } from './answers.ts'
import type { Ranker } from './ranker.ts'
import type { ComparedSetup, ComparisonQuery, RankingQuery } from './schema.ts'
import { cautionsFor } from './wording.ts'

export interface Sources extends FitSources {
  readonly db: Database
  readonly rank: Ranker['rank']
}

/**
 * The question that a query asks: its conditions filled in, and the fits it is put to.
 *
 * @throws {ApiProblem} unknown-reference for a wing that does not exist, outside-model-range, and what
 *   `chooseFits` throws
 */
export async function ask(
  sources: Sources,
  query: ComparisonQuery | RankingQuery,
): Promise<{ readonly question: AskedQuestion; readonly conditions: Conditions }> {
  const chosen = await chooseFits(sources, quantityOf(query), query)
  const { state, conditions } = await conditionsOf(sources.db, query)
  return { question: { metric: query.metric, state, fit: chosen.fit.view, chosen }, conditions }
}

/** What every answer begins with. */
export function headOf({ metric, chosen }: AskedQuestion, conditions: Conditions) {
  const { unit, better, scale, equivalenceMargin } = METRIC_FACTS[metric]
  const margin =
    scale === 'level'
      ? { equivalenceMarginDb: equivalenceMargin }
      : { equivalenceMarginPercent: equivalenceMargin }
  const { fit, otherFits } = chosen
  return { fitId: fit.id, metric, unit, better, ...margin, conditions, otherFits }
}

/** The cautions that go with these setups. */
export function cautionsAbout(metric: Metric, setups: readonly ComparedSetup[]): string[] {
  const names = (which: (setup: ComparedSetup) => boolean) =>
    setups.filter(which).map(({ name }) => name)
  return cautionsFor(metric, {
    doNotFly: names(({ safety }) => safety.state === 'doNotFly'),
    interested: names(({ evidence }) => evidence.interestedSessions > 0),
  })
}

/** Two ids may lead to one setup after a merge. */
export function distinct(setups: readonly SetupFacts[]): SetupFacts[] {
  return [...new Map(setups.map((facts) => [facts.setupId, facts])).values()]
}
