import { ApiProblem } from '../../contract/problems.ts'
import { findSetupFacts } from '../../db/catalogue-facts.ts'
import { type AskedQuestion, candidateOf, showPair, showSetup } from './answers.ts'
import { ask, cautionsAbout, distinct, headOf, type Sources } from './ask.ts'
import type { Comparison, ComparisonQuery } from './schema.ts'

/**
 * The named setups side by side at the caller's conditions, and every pair of them.
 *
 * @throws {ApiProblem} unknown-reference for a setup or wing that does not exist
 */
export async function compare(sources: Sources, query: ComparisonQuery): Promise<Comparison> {
  const { question: asked, conditions } = await ask(sources, query)
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
  const ranks = await sources.rank(question, setups.map(candidateOf))
  const shown = setups.map((facts) => showSetup(question, facts, ranks.get(facts.setupId) ?? null))
  const pairs = setups.flatMap((a, i) => setups.slice(i + 1).map((b) => showPair(question, a, b)))
  return {
    ...headOf(question, conditions),
    setups: shown,
    pairs,
    cautions: cautionsAbout(query.metric, shown),
  }
}

function fuelOf({ fuelPricePerL, currency }: ComparisonQuery): AskedQuestion['fuel'] {
  if (fuelPricePerL === undefined || currency === undefined) return undefined
  return { pricePerL: fuelPricePerL, currency }
}
