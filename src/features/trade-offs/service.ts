import { CAUTIONS, doNotFly } from '../../contract/cautions.ts'
import { ApiProblem } from '../../contract/problems.ts'
import { answerForSetup, type Question } from '../../core/comparison/compare.ts'
import { type Refusal, refusal, refusalOfSetup } from '../../core/comparison/refusal.ts'
import { type TradedSetup, tradeOff } from '../../core/comparison/trade-off.ts'
import type { FlightState } from '../../core/normalise/types.ts'
import { conditionsOf } from '../../db/asked-conditions.ts'
import { findSetupFacts, type SetupFacts } from '../../db/catalogue-facts.ts'
import type { Database } from '../../db/client.ts'
import { type ChosenFits, chooseFits, type FitSources } from '../../db/fit-choice.ts'
import type { LoadedFit } from '../../db/fit-store.ts'
import {
  askOthers,
  type ByOthers,
  mapOthers,
  otherFitsOf,
  withOthers,
} from '../../db/other-fits.ts'
import type { TradeOff, TradeOffQuery, TradeOffSetup } from './schema.ts'
import { IN_WORDS, sentenceFor, verdictOf } from './wording.ts'

export interface Sources extends FitSources {
  readonly db: Database
}

/**
 * Climb against fuel flow: which setups no other one beats in both, and how sure that is.
 *
 * @throws {ApiProblem} unknown-reference for a setup or wing that does not exist
 */
export async function weighTradeOff(sources: Sources, query: TradeOffQuery): Promise<TradeOff> {
  const chosen = await fitsFor(sources, query)
  const { state, conditions } = await conditionsOf(sources.db, query)
  const [climbs, burns] = chosen
  const asked = query.setups ?? [...new Set([...climbs.fit.setupIds, ...burns.fit.setupIds])]
  const setups = await findAll(sources.db, asked, query.setups !== undefined)
  const unsafe = setups.filter(({ safety }) => safety.state === 'doNotFly')
  const sound = setups.filter(({ safety }) => safety.state !== 'doNotFly')
  const weigh = (fits: readonly LoadedFit[]) =>
    tradeOff(...questionsOf(state, fits), sound).map((one) => [one.setupId, one] as const)
  const own = new Map(weigh([climbs.fit, burns.fit]))
  const others = askOthers<Traded>(chosen, own, (fits) => new Map(weigh(fits)))
  const questions = questionsOf(state, [climbs.fit, burns.fit])
  return {
    ...{ climbFitId: climbs.fit.id, fuelFitId: burns.fit.id, conditions },
    otherFits: otherFitsOf(chosen),
    setups: inOrder(
      sound
        .filter(({ setupId }) => own.has(setupId))
        .map((facts) => show(questions, facts, { found: own.get(facts.setupId)!, others })),
    ),
    leftOut: sound
      .filter(({ setupId }) => !own.has(setupId))
      .map((facts) => {
        const { code, reason } = whyNot(questions, facts)
        return { ...namedOnly(facts), refused: { reasonCode: code, reason } }
      }),
    setAside: unsafe.map(namedOnly),
    cautions: [...unsafe.map(({ name }) => doNotFly(name)), ...CAUTIONS_OF_BOTH],
  }
}

const CAUTIONS_OF_BOTH = [
  CAUTIONS.fullThrottleClimb,
  CAUTIONS.burnToEmpty,
  CAUTIONS.underLoad,
  CAUTIONS.deference,
]

type Traded = ReadonlyMap<string, TradedSetup>
type BothQuestions = readonly [climb: Question, fuel: Question]

/** Fits of climbs and of burns. */
async function fitsFor(
  sources: Sources,
  { climbFitId, fuelFitId, ...query }: TradeOffQuery,
): Promise<readonly [ChosenFits, ChosenFits]> {
  return [
    await chooseFits(sources, 'inducedPower', { ...query, fitId: climbFitId }),
    await chooseFits(sources, 'fuelFlow', { ...query, fitId: fuelFitId }),
  ]
}

function questionsOf(state: FlightState, [climbs, burns]: readonly LoadedFit[]): BothQuestions {
  return [
    { metric: 'climbRate', state, fit: climbs!.view },
    { metric: 'fuelFlow', state, fit: burns!.view },
  ]
}

function inOrder(setups: TradeOffSetup[]): TradeOffSetup[] {
  return setups.sort(
    (a, b) => b.probabilityOnFront - a.probabilityOnFront || (a.setupId < b.setupId ? -1 : 1),
  )
}

async function findAll(
  db: Database,
  ids: readonly string[],
  mustExist: boolean,
): Promise<SetupFacts[]> {
  const found = await findSetupFacts(db, ids)
  const missing = ids.filter((id) => !found.has(id))
  if (mustExist && missing.length > 0) {
    throw new ApiProblem('unknown-reference', {
      errors: missing.map((id) => ({
        pointer: '/setups',
        detail: `${id} is not a setup of the catalogue`,
      })),
    })
  }
  return [...new Map([...found.values()].map((facts) => [facts.setupId, facts])).values()]
}

function namedOnly({ setupId, name }: SetupFacts) {
  return { setupId, name }
}

function show(
  [climb, fuel]: BothQuestions,
  facts: SetupFacts,
  { found, others }: { readonly found: TradedSetup; readonly others: ByOthers<Traded> },
): TradeOffSetup {
  const { onFront, probabilityOnFront } = found
  const verdict = verdictOf(probabilityOnFront)
  const byOthers = mapOthers(others, (traded) => {
    const probability = traded.get(facts.setupId)?.probabilityOnFront ?? null
    return { verdict: verdictOf(probability), probabilityOnFront: probability }
  })
  const answer = {
    ...namedOnly(facts),
    ...{ climbRateMps: figure(climb, facts), fuelFlowLPerH: figure(fuel, facts) },
    ...{ onFront, probabilityOnFront, verdict },
    sentence: sentenceFor(facts.name, probabilityOnFront),
  }
  return withOthers(answer, byOthers, {
    differs: (other) => other.verdict !== verdict,
    inWords: (other) => IN_WORDS[other.verdict],
  })
}

function figure(question: Question, facts: SetupFacts): TradeOffSetup['climbRateMps'] {
  const answer = answerForSetup(question, facts)
  if (answer.refusal !== null) throw new Error(`${facts.setupId} takes part without a value`)
  const [low, high] = answer.interval95
  return { value: answer.value, interval95: [low, high] }
}

function whyNot([climb, fuel]: BothQuestions, { setupId, equipment }: SetupFacts): Refusal {
  const unknown = refusalOfSetup(climb.fit, setupId) ?? refusalOfSetup(fuel.fit, setupId)
  if (unknown !== null) return unknown
  const answer = answerForSetup(climb, { setupId, equipment })
  return answer.refusal ?? refusal('notConnected')
}
