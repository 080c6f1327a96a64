import { CAUTIONS, doNotFly } from '../../contract/cautions.ts'
import { ApiProblem } from '../../contract/problems.ts'
import { answerForSetup, type Question } from '../../core/comparison/compare.ts'
import { type Refusal, refusal, refusalOfSetup } from '../../core/comparison/refusal.ts'
import { type TradedSetup, tradeOff } from '../../core/comparison/trade-off.ts'
import { conditionsOf } from '../../db/asked-conditions.ts'
import { findSetupFacts, type SetupFacts } from '../../db/catalogue-facts.ts'
import type { Database } from '../../db/client.ts'
import type { FitStore } from '../../db/fit-store.ts'
import type { TradeOff, TradeOffQuery, TradeOffSetup } from './schema.ts'

export interface Sources {
  readonly db: Database
  readonly fits: FitStore
}

/**
 * Climb against fuel flow: which setups no other one beats in both, and how sure that is.
 *
 * @throws {ApiProblem} unknown-reference for a setup or wing that does not exist
 */
export async function weighTradeOff(sources: Sources, query: TradeOffQuery): Promise<TradeOff> {
  const climbs = await sources.fits.load('inducedPower', query.climbFitId)
  const burns = await sources.fits.load('fuelFlow', query.fuelFitId)
  const { state, conditions } = await conditionsOf(sources.db, query)
  const climb: Question = { metric: 'climbRate', state, fit: climbs.view }
  const fuel: Question = { metric: 'fuelFlow', state, fit: burns.view }
  const asked = query.setups ?? [...new Set([...climbs.setupIds, ...burns.setupIds])]
  const setups = await findAll(sources.db, asked, query.setups !== undefined)
  const unsafe = setups.filter(({ safety }) => safety.state === 'doNotFly')
  const sound = setups.filter(({ safety }) => safety.state !== 'doNotFly')
  const traded = new Map(tradeOff(climb, fuel, sound).map((found) => [found.setupId, found]))
  const shown = sound.flatMap((facts) => {
    const found = traded.get(facts.setupId)
    return found === undefined ? [] : [show({ climb, fuel }, facts, found)]
  })
  return {
    climbFitId: climbs.id,
    fuelFitId: burns.id,
    conditions,
    setups: shown.sort(
      (a, b) => b.probabilityOnFront - a.probabilityOnFront || (a.setupId < b.setupId ? -1 : 1),
    ),
    leftOut: sound.flatMap((facts) => {
      if (traded.has(facts.setupId)) return []
      const { code, reason } = whyNot({ climb, fuel }, facts)
      return [{ ...namedOnly(facts), refused: { reasonCode: code, reason } }]
    }),
    setAside: unsafe.map(namedOnly),
    cautions: [
      ...unsafe.map(({ name }) => doNotFly(name)),
      CAUTIONS.fullThrottleClimb,
      CAUTIONS.burnToEmpty,
      CAUTIONS.underLoad,
      CAUTIONS.deference,
    ],
  }
}

interface BothQuestions {
  readonly climb: Question
  readonly fuel: Question
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
  { climb, fuel }: BothQuestions,
  facts: SetupFacts,
  { onFront, probabilityOnFront }: TradedSetup,
): TradeOffSetup {
  return {
    ...namedOnly(facts),
    climbRateMps: figure(climb, facts),
    fuelFlowLPerH: figure(fuel, facts),
    onFront,
    probabilityOnFront,
    sentence: sentenceFor(facts.name, probabilityOnFront),
  }
}

function figure(question: Question, facts: SetupFacts): TradeOffSetup['climbRateMps'] {
  const answer = answerForSetup(question, facts)
  if (answer.refusal !== null) throw new Error(`${facts.setupId} takes part without a value`)
  const [low, high] = answer.interval95
  return { value: answer.value, interval95: [low, high] }
}

function whyNot({ climb, fuel }: BothQuestions, { setupId, equipment }: SetupFacts): Refusal {
  const unknown = refusalOfSetup(climb.fit, setupId) ?? refusalOfSetup(fuel.fit, setupId)
  if (unknown !== null) return unknown
  const answer = answerForSetup(climb, { setupId, equipment })
  return answer.refusal ?? refusal('notConnected')
}

/** How sure the front is, in plain words; the limits are editorial. */
function sentenceFor(name: string, probability: number): string {
  const share = `${Math.round(100 * probability)} %`
  if (probability >= 0.95) return `No other one beats ${name} in both (${share} sure).`
  if (probability <= 0.05)
    return `Another one climbs at least as well as ${name} on less fuel (${share} that none does).`
  return `Whether another one beats ${name} in both is open: ${share} that none does.`
}
