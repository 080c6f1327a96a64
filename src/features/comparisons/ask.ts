import { type Conditions, unknownWing } from '../../contract/conditions.ts'
import { wingPointers, withinModel } from '../../contract/outside-model.ts'
import { ApiProblem } from '../../contract/problems.ts'
import { resolveConditions } from '../../core/comparison/conditions.ts'
import { METRIC_FACTS, type Metric, type Quantity } from '../../core/comparison/metric.ts'
import { rankSetups } from '../../core/comparison/rank-setups.ts'
import { refusal } from '../../core/comparison/refusal.ts'
import { requireFlightState } from '../../core/normalise/predict.ts'
import { findSetupFacts, findWing, type SetupFacts } from '../../db/catalogue-facts.ts'
import type { Database } from '../../db/client.ts'
import type { FitStore, LoadedFit } from '../../db/fit-store.ts'
import { type AskedQuestion, candidateOf, showPair, showSetup } from './answers.ts'
import { chooseFits, type FitSources } from './fit-choice.ts'
import type { ComparedSetup, Comparison, ComparisonQuery, Ranking, RankingQuery } from './schema.ts'
import { cautionsFor } from './wording.ts'

export interface Sources {
  readonly db: Database
  readonly fits: FitStore
  partFit: FitSources['partFit']
}

/**
 * The named setups side by side at the caller's conditions, and every pair of them.
 *
 * @throws {ApiProblem} unknown-reference for a setup or wing that does not exist
 */
export async function compare(sources: Sources, query: ComparisonQuery): Promise<Comparison> {
  const { fit, question: asked, conditions } = await ask(sources, query)
  const { otherFits } = asked
  const question = { ...asked, fuel: fuelOf(query) }
  const found = await findSetupFacts(sources.db, query.setups)
  const missing = query.setups.filter((id) => !found.has(id))
  if (missing.length > 0) {
    throw new ApiProblem('unknown-reference', {
      errors: missing.map((id) => ({
        pointer: '/setups',
        detail: `${id} is not a setup of the catalogue`,
      })),
    })
  }
  const setups = distinct(query.setups.map((id) => found.get(id)!))
  const ranks = rankSetups(question, setups.map(candidateOf))
  const shown = setups.map((facts) => showSetup(question, facts, ranks.get(facts.setupId) ?? null))
  const pairs = setups.flatMap((a, i) => setups.slice(i + 1).map((b) => showPair(question, a, b)))
  return {
    ...headOf(fit, query.metric, conditions),
    otherFits,
    setups: shown,
    pairs,
    cautions: cautionsAbout(query.metric, shown),
  }
}

/**
 * The ranked list for a weight class or a mass: the largest group of setups that can be compared
 * with one another; the others with the reason why not; unsafe ones set aside.
 */
export async function rank(sources: Sources, query: RankingQuery): Promise<Ranking> {
  const { fit, question, conditions } = await ask(sources, query)
  const found = await findSetupFacts(sources.db, fit.setupIds)
  const setups = distinct([...found.values()])
  const sound = setups.filter(({ safety }) => safety.state !== 'doNotFly')
  const ranks = rankSetups(question, sound.map(candidateOf))
  const inOrder = (facts: SetupFacts) =>
    ranks.get(facts.setupId)?.position ?? Number.POSITIVE_INFINITY
  const ranked = sound
    .filter(({ setupId }) => ranks.has(setupId))
    .sort((a, b) => inOrder(a) - inOrder(b))
    .map((facts) => showSetup(question, facts, ranks.get(facts.setupId) ?? null))
  const unranked = sound
    .filter(({ setupId }) => !ranks.has(setupId))
    .map((facts) => withReason(showSetup(question, facts, null)))
  const setAside = setups
    .filter(({ safety }) => safety.state === 'doNotFly')
    .map((facts) => showSetup(question, facts, null))
  return {
    ...headOf(fit, query.metric, conditions),
    ranked: ranked.slice(0, query.limit),
    unranked,
    setAside,
    cautions: cautionsAbout(query.metric, [...ranked, ...unranked, ...setAside]),
  }
}

/** Not ranked although it has a value of its own: what is missing is the link to the ranked group. */
function withReason(setup: ComparedSetup): ComparedSetup {
  if (setup.refused !== undefined) return setup
  const { code, reason } = refusal('notConnected')
  return { ...setup, refused: { reasonCode: code, reason } }
}

async function ask(sources: Sources, query: ComparisonQuery | RankingQuery) {
  const quantity = quantityOf(query)
  const { fit, ...others } = await chooseFits(sources, quantity, query)
  const wing = query.wingId === undefined ? null : await findWing(sources.db, query.wingId)
  if (query.wingId !== undefined && wing === null) throw unknownWing()
  const { state, airDensityKgPerM3, assumed } = resolveConditions(query, wing)
  withinModel(wingPointers(query.wingId), () => requireFlightState(state))
  const question: AskedQuestion = {
    metric: query.metric,
    state,
    fit: fit.view,
    loaded: fit,
    ...others,
  }
  const { allUpMassKg, elevationM, temperatureC } = state
  const conditions: Conditions = {
    ...{ allUpMassKg, elevationM, temperatureC, airDensityKgPerM3 },
    wing: { id: wing?.id ?? null, ...state.wing },
    assumed: [...assumed],
  }
  return { fit, question, conditions }
}

function fuelOf({ fuelPricePerL, currency }: ComparisonQuery): AskedQuestion['fuel'] {
  if (fuelPricePerL === undefined || currency === undefined) return undefined
  return { pricePerL: fuelPricePerL, currency }
}

/** Sound at the ear and at a distance are two quantities and never converted into one another. */
function quantityOf({ metric, soundPosition }: ComparisonQuery | RankingQuery): Quantity {
  const atDistance = metric === 'soundLevel' && soundPosition === 'distance'
  return atDistance ? 'soundAtDistance' : METRIC_FACTS[metric].quantity
}

function headOf(fit: LoadedFit, metric: Metric, conditions: Conditions) {
  const { unit, better, scale, equivalenceMargin } = METRIC_FACTS[metric]
  const margin =
    scale === 'level'
      ? { equivalenceMarginDb: equivalenceMargin }
      : { equivalenceMarginPercent: equivalenceMargin }
  return { fitId: fit.id, metric, unit, better, ...margin, conditions }
}

function cautionsAbout(metric: Metric, setups: readonly ComparedSetup[]): string[] {
  const names = (which: (setup: ComparedSetup) => boolean) =>
    setups.filter(which).map(({ name }) => name)
  return cautionsFor(metric, {
    doNotFly: names(({ safety }) => safety.state === 'doNotFly'),
    interested: names(({ evidence }) => evidence.interestedSessions > 0),
  })
}

/** Two ids may lead to one setup after a merge. */
function distinct(setups: readonly SetupFacts[]): SetupFacts[] {
  return [...new Map(setups.map((facts) => [facts.setupId, facts])).values()]
}
