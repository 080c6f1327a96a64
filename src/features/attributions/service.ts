import { CAUTIONS, doNotFly } from '../../contract/cautions.ts'
import { ApiProblem } from '../../contract/problems.ts'
import { attribute } from '../../core/comparison/attribution.ts'
import { METRIC_FACTS, type Metric, quantityOf } from '../../core/comparison/metric.ts'
import { refusal } from '../../core/comparison/refusal.ts'
import { conditionsOf } from '../../db/asked-conditions.ts'
import { findSetupFacts, type SetupFacts } from '../../db/catalogue-facts.ts'
import type { Database } from '../../db/client.ts'
import { type ChosenFits, chooseFits, type FitSources } from '../../db/fit-choice.ts'
import type { LoadedFit } from '../../db/fit-store.ts'
import { askOthers } from '../../db/other-fits.ts'
import { findingsOf, lineBeside, totalBeside } from './beside.ts'
import { figuresOf, showLines } from './lines.ts'
import { findPartNames } from './repository.ts'
import type { Attribution, AttributionQuery } from './schema.ts'
import { totalSentence } from './wording.ts'

export interface Sources extends FitSources {
  readonly db: Database
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
  const chosen = await chooseFits(sources, quantityOf(query), query)
  const { state, conditions } = await conditionsOf(sources.db, query)
  const { metric } = query
  const ends = await endsOf(sources.db, query)
  const { from, to } = ends
  const { unit, better } = METRIC_FACTS[metric]
  const by = (fit: LoadedFit) => attribute({ metric, state, fit: fit.view }, from, to)
  const found = by(chosen.fit)
  const others = askOthers([chosen], findingsOf(found), ([other]) => findingsOf(by(other!)))
  const { total, lines, ...rest } = await takenApart(sources.db, { found, metric, chosen, ends })
  return {
    ...{ fitId: chosen.fit.id, metric, unit, better, conditions, otherFits: chosen.otherFits },
    from: { setupId: from.setupId, name: from.name },
    to: { setupId: to.setupId, name: to.name },
    ...rest,
    total: totalBeside(total, others),
    lines: lines.map((line) => lineBeside(line, others)),
    cautions: cautionsAbout([from, to]),
  }
}

interface Ends {
  readonly from: SetupFacts
  readonly to: SetupFacts
}

interface Found {
  readonly found: ReturnType<typeof attribute>
  readonly metric: Metric
  readonly chosen: ChosenFits
  readonly ends: Ends
}

/** The difference and its lines as this fit has them. */
async function takenApart(
  db: Database,
  { found, metric, chosen, ends: { from, to } }: Found,
): Promise<Pick<Attribution, 'evidence' | 'total' | 'lines' | 'partsAddUp'>> {
  const { view } = chosen.fit
  const additive = view.additive ?? null
  if (found === null || additive === null || !('parts' in found)) {
    const { code, reason } =
      found !== null && 'refusal' in found ? found.refusal : refusal('notEstimable')
    const refused = { reasonCode: code, reason }
    const evidence = view.tierOf(to.setupId, from.setupId)
    const total = { verdict: 'refused' as const, sentence: reason, refused }
    return { evidence, total, lines: [], partsAddUp: null }
  }
  const parts = { from: additive.partsOf(from.setupId)!, to: additive.partsOf(to.setupId)! }
  const ids = [...Object.values(parts.from), ...Object.values(parts.to)]
  const { figures, fields } = figuresOf(metric, found.total.difference)
  const sentence = totalSentence(from.name, to.name, figures)
  return {
    evidence: found.total.tier,
    total: { verdict: found.total.verdict, ...fields, sentence },
    lines: showLines(metric, found, { ...parts, names: await findPartNames(db, ids) }),
    partsAddUp: {
      spreadPercent: 100 * Math.expm1(Math.sqrt(additive.interactionVariance)),
      degreesOfFreedom: additive.interactionDegreesOfFreedom,
    },
  }
}

async function endsOf(db: Database, query: AttributionQuery): Promise<Ends> {
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
