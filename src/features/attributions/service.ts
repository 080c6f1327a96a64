import { CAUTIONS, doNotFly } from '../../contract/cautions.ts'
import { ApiProblem } from '../../contract/problems.ts'
import { attribute } from '../../core/comparison/attribution.ts'
import type { Question } from '../../core/comparison/compare.ts'
import { METRIC_FACTS, type Quantity } from '../../core/comparison/metric.ts'
import { refusal } from '../../core/comparison/refusal.ts'
import { conditionsOf } from '../../db/asked-conditions.ts'
import { findSetupFacts, type SetupFacts } from '../../db/catalogue-facts.ts'
import type { Database } from '../../db/client.ts'
import type { FitStore } from '../../db/fit-store.ts'
import { figuresOf, showLines } from './lines.ts'
import { findPartNames } from './repository.ts'
import type { Attribution, AttributionQuery } from './schema.ts'
import { totalSentence } from './wording.ts'

export interface Sources {
  readonly db: Database
  readonly fits: FitStore
}

/**
 * How much of the difference of two setups is powerplant, propeller and frame, and what they do not
 * explain.
 *
 * @throws {ApiProblem} unknown-reference for a setup or wing that does not exist
 */
export async function attributeDifference(
  sources: Sources,
  query: AttributionQuery,
): Promise<Attribution> {
  const loaded = await sources.fits.load(quantityOf(query), query.fitId)
  const { state, conditions } = await conditionsOf(sources.db, query)
  const question: Question = { metric: query.metric, state, fit: loaded.view }
  const { from, to } = await endsOf(sources.db, query)
  const { unit, better } = METRIC_FACTS[query.metric]
  const head = {
    ...{ fitId: loaded.id, metric: query.metric, unit, better, conditions },
    from: { setupId: from.setupId, name: from.name },
    to: { setupId: to.setupId, name: to.name },
    cautions: cautionsAbout([from, to]),
  }
  return { ...head, ...(await takeApart(sources.db, question, { from, to })) }
}

async function takeApart(
  db: Database,
  question: Question,
  { from, to }: { readonly from: SetupFacts; readonly to: SetupFacts },
): Promise<Pick<Attribution, 'evidence' | 'total' | 'lines' | 'partsAddUp'>> {
  const { metric, fit } = question
  const additive = fit.additive ?? null
  const found = attribute(question, from, to)
  if (found === null || additive === null || !('parts' in found)) {
    const { code, reason } =
      found !== null && 'refusal' in found ? found.refusal : refusal('notEstimable')
    const refused = { reasonCode: code, reason }
    const evidence = fit.tierOf(to.setupId, from.setupId)
    return { evidence, total: { sentence: reason, refused }, lines: [], partsAddUp: null }
  }
  const parts = { from: additive.partsOf(from.setupId)!, to: additive.partsOf(to.setupId)! }
  const ids = [...Object.values(parts.from), ...Object.values(parts.to)]
  const total = figuresOf(metric, found.total.difference)
  return {
    evidence: found.total.tier,
    total: { ...total.fields, sentence: totalSentence(from.name, to.name, total.figures) },
    lines: showLines(metric, found, { ...parts, names: await findPartNames(db, ids) }),
    partsAddUp: {
      spreadPercent: 100 * Math.expm1(Math.sqrt(additive.interactionVariance)),
      degreesOfFreedom: additive.interactionDegreesOfFreedom,
    },
  }
}

function quantityOf({ metric, soundPosition }: AttributionQuery): Quantity {
  const atDistance = metric === 'soundLevel' && soundPosition === 'distance'
  return atDistance ? 'soundAtDistance' : METRIC_FACTS[metric].quantity
}

async function endsOf(db: Database, query: AttributionQuery) {
  const found = await findSetupFacts(db, [query.from, query.to])
  const missing = (['from', 'to'] as const).filter((end) => !found.has(query[end]))
  if (missing.length > 0) {
    throw new ApiProblem('unknown-reference', {
      errors: missing.map((end) => ({
        pointer: `/${end}`,
        detail: `${query[end]} is not a setup of the catalogue`,
      })),
    })
  }
  return { from: found.get(query.from)!, to: found.get(query.to)! }
}

function cautionsAbout(setups: readonly SetupFacts[]): string[] {
  const unsafe = setups.filter(({ safety }) => safety.state === 'doNotFly')
  return [
    ...unsafe.map(({ name }) => doNotFly(name)),
    'A part that does well here may do otherwise beside other parts: what parts bring is a mean over the setups that were flown.',
    CAUTIONS.underLoad,
    CAUTIONS.deference,
  ]
}
