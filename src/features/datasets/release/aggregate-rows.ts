import { answerForSetup, type Candidate, type Question } from '../../../core/comparison/compare.ts'
import { resolveConditions } from '../../../core/comparison/conditions.ts'
import { MASS_CLASSES, type MassClass } from '../../../core/comparison/mass-classes.ts'
import {
  METRIC_FACTS,
  METRICS,
  type Metric,
  type Quantity,
} from '../../../core/comparison/metric.ts'
import type { RankedSetup } from '../../../core/comparison/rank-setups.ts'
import { viewOf } from '../../../core/comparison/stored-fit.ts'
import type { SetupFacts } from '../../../db/catalogue-facts.ts'
import type { Row } from '../files/csv.ts'
import type { ReleasedFit, VariantFit } from './released-fits.ts'

type Facts = ReadonlyMap<string, SetupFacts>

/** What `rankSetups` gives, without keeping requests waiting. */
export type RankInThread = (
  question: Question,
  candidates: readonly Candidate[],
) => Promise<ReadonlyMap<string, RankedSetup>>

/** One ranking: a metric as one quantity shows it, for a weight class, from a part of the evidence. */
interface Ranking {
  readonly metric: Metric
  readonly quantity: Quantity
  readonly massClass: MassClass
  readonly variant: VariantFit
}

/**
 * The table aggregates: the rankings of every metric and weight class, at sea level on a standard
 * day, from all runs, from those of the class, without those of people with an interest, and robust.
 */
export async function aggregateRows(
  fits: readonly ReleasedFit[],
  facts: Facts,
  rank: RankInThread,
): Promise<Row[]> {
  const rows: Row[] = []
  for (const ranking of rankingsOf(fits)) rows.push(...(await rowsOf(ranking, facts, rank)))
  return rows
}

function rankingsOf(fits: readonly ReleasedFit[]): Ranking[] {
  return METRICS.flatMap((metric) =>
    fits
      .filter(({ quantity }) => quantitiesOf(metric).includes(quantity))
      .flatMap(({ quantity, variants }) =>
        (Object.keys(MASS_CLASSES) as MassClass[]).flatMap((massClass) =>
          variants
            .filter((variant) => variant.massClass === null || variant.massClass === massClass)
            .map((variant) => ({ metric, quantity, massClass, variant })),
        ),
      ),
  )
}

/** Sound at the ear and at a distance are two quantities and never converted into one another. */
function quantitiesOf(metric: Metric): readonly Quantity[] {
  const { quantity } = METRIC_FACTS[metric]
  return metric === 'soundLevel' ? [quantity, 'soundAtDistance'] : [quantity]
}

async function rowsOf(
  { metric, quantity, massClass, variant }: Ranking,
  facts: Facts,
  rank: RankInThread,
): Promise<Row[]> {
  const { state } = resolveConditions({ massClass, elevationM: 0 }, null)
  const question: Question = { metric, state, fit: viewOf(variant.whole) }
  const setups = variant.whole.fit.setups.flatMap((id) => facts.get(id) ?? [])
  const ranks = await rank(
    question,
    setups.filter(({ safety }) => safety.state !== 'doNotFly'),
  )
  return setups.map((setup) => ({
    metric,
    quantity,
    variant: variant.name,
    all_up_mass_class: massClass,
    all_up_mass_kg: state.allUpMassKg,
    setup_id: setup.setupId,
    unit: METRIC_FACTS[metric].unit,
    ...valuesOf(question, setup),
    ...rankOf(ranks.get(setup.setupId)),
    ...evidenceOf(question, setup),
  }))
}

function valuesOf(question: Question, setup: SetupFacts): Row {
  const answer = answerForSetup(question, setup)
  const given = answer.refusal === null ? answer : null
  return {
    estimate: given?.value ?? null,
    standard_uncertainty: given?.standardUncertainty ?? null,
    interval95_low: given?.interval95[0] ?? null,
    interval95_high: given?.interval95[1] ?? null,
    degrees_of_freedom: given?.degreesOfFreedom ?? null,
    refused: answer.refusal?.code ?? null,
  }
}

function rankOf(rank: RankedSetup | undefined): Row {
  return {
    rank_median: rank?.median ?? null,
    rank_low: rank?.interval95[0] ?? null,
    rank_high: rank?.interval95[1] ?? null,
    p_score: rank?.pScore ?? null,
  }
}

function evidenceOf({ fit }: Question, { setupId }: SetupFacts): Row {
  const { sessions, pilots, runs, independentSessions } = fit.evidenceOf(setupId)
  return { sessions, pilots, runs, independent_sessions: independentSessions }
}
