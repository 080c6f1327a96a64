import type { RankedSetup } from '../../core/comparison/rank-setups.ts'
import { refusal } from '../../core/comparison/refusal.ts'
import { type Standing, standingsOf } from '../../core/comparison/standing.ts'
import { findSetupFacts, type SetupFacts } from '../../db/catalogue-facts.ts'
import {
  askOthers,
  type ByOthers,
  besideFields,
  mapOthers,
  withOthers,
} from '../../db/other-fits.ts'
import { type AskedQuestion, candidateOf, showSetup } from './answers.ts'
import { ask, cautionsAbout, distinct, headOf, type Sources } from './ask.ts'
import type { ComparedSetup, Ranking, RankingQuery } from './schema.ts'
import { leadSentence, otherwiseInWords } from './wording-ranking.ts'

/**
 * The ranked list for a weight class or a mass: the largest group of setups that can be compared
 * with one another; the others with the reason why not; unsafe ones set aside.
 */
export async function rank(sources: Sources, query: RankingQuery): Promise<Ranking> {
  const { question, conditions } = await ask(sources, query)
  const found = await findSetupFacts(sources.db, question.chosen.fit.setupIds)
  const setups = distinct([...found.values()])
  const sound = setups.filter(({ safety }) => safety.state !== 'doNotFly')
  const list = listOf(question, sound, await sources.rank(question, sound.map(candidateOf)))
  const unranked = sound
    .filter(({ setupId }) => !list.ranks.has(setupId))
    .map((facts) => withReason(showSetup(question, facts, null)))
  const setAside = setups
    .filter(({ safety }) => safety.state === 'doNotFly')
    .map((facts) => showSetup(question, facts, null))
  const ranked = list.ranked.slice(0, query.limit).map((facts) => showRanked(question, list, facts))
  return {
    ...headOf(question, conditions),
    ...besideList(question, list),
    ranked,
    unranked,
    setAside,
    cautions: cautionsAbout(query.metric, [...ranked, ...unranked, ...setAside]),
  }
}

type Standings = ReadonlyMap<string, Standing>

/** The ranked setups, best first, with how each stands by every fit of the evidence. */
interface RankedList {
  readonly ranked: readonly SetupFacts[]
  readonly ranks: ReadonlyMap<string, RankedSetup>
  readonly own: Standings
  readonly others: ByOthers<Standings>
}

function listOf(
  question: AskedQuestion,
  setups: readonly SetupFacts[],
  ranks: RankedList['ranks'],
): RankedList {
  const facts = new Map(setups.map((setup) => [setup.setupId, setup]))
  const ranked = [...ranks.keys()].map((id) => facts.get(id)!)
  const [first] = ranked
  const { metric, state, chosen } = question
  const by = (fit: AskedQuestion['fit']): Standings =>
    first === undefined
      ? new Map()
      : standingsOf({ metric, state, fit }, ranked.map(candidateOf), candidateOf(first))
  const own = by(question.fit)
  return { ranked, ranks, own, others: askOthers([chosen], own, ([other]) => by(other!.view)) }
}

function showRanked(
  question: AskedQuestion,
  { ranks, own, others }: RankedList,
  facts: SetupFacts,
): Ranking['ranked'][number] {
  const { setupId } = facts
  const { againstFirst } = own.get(setupId)!
  const ofThis = mapOthers(others, (standings) => standings.get(setupId)!)
  return {
    ...showSetup(question, facts, ranks.get(setupId)!),
    againstFirst,
    ...besideFields(ofThis, (other) => other.againstFirst !== againstFirst),
  }
}

/** Who leads, and whether that stands by the other fits of the evidence. */
function besideList(
  { metric }: AskedQuestion,
  { ranked, own, others }: RankedList,
): Pick<Ranking, 'sentence' | 'withoutInterested' | 'robust'> {
  const names = new Map(ranked.map(({ setupId, name }) => [setupId, name]))
  const found = mapOthers(others, (standings) => ({
    first: [...standings].find(([, { position }]) => position === 1)?.[0] ?? null,
    otherwise: [...standings]
      .filter(([id, { againstFirst }]) => againstFirst !== own.get(id)!.againstFirst)
      .map(([id]) => id),
  }))
  const verdicts = [...own.values()].flatMap(({ againstFirst }) => againstFirst ?? [])
  const lead = { sentence: leadSentence(metric, ranked[0]?.name ?? null, verdicts) }
  return withOthers(lead, found, {
    differs: ({ otherwise }) => otherwise.length > 0,
    inWords: ({ otherwise }) => otherwiseInWords(otherwise.map((id) => names.get(id)!)),
  })
}

/** Not ranked although it has a value of its own: what is missing is the link to the ranked group. */
function withReason(setup: ComparedSetup): ComparedSetup {
  if (setup.refused !== undefined) return setup
  const { code, reason } = refusal('notConnected')
  return { ...setup, refused: { reasonCode: code, reason } }
}
