import { MASS_CLASSES, type MassClass } from '../../../core/comparison/mass-classes.ts'
import { METRIC_FACTS, METRICS, type Metric } from '../../../core/comparison/metric.ts'

/** What is asked: of which setups, by what, for whom and where. All of it stands in the address. */
export interface Question {
  readonly metric: Metric
  /** Named setups; none: the ranking of all. */
  readonly setups: readonly string[]
  readonly massClass: MassClass
  /** In place of the class [kg]. */
  readonly allUpMassKg: number | null
  readonly elevationM: number
  /** null: as the standard atmosphere has it there [°C]. */
  readonly temperatureC: number | null
  readonly wingId: string | null
  readonly soundPosition: 'pilotEar' | 'distance'
  /** Fuel on board, and what of it is not to be flown on [L]; null: not asked for. */
  readonly tankL: number | null
  readonly reserveL: number | null
  /** All runs, or only those flown in the mass class that is asked for. */
  readonly evidence: 'all' | 'class'
  /** Without tests by people who sell, make or were given what they tested. */
  readonly excludeInterested: boolean
  /** An earlier fit, to see an answer as it was. */
  readonly fitId: string | null
  /** The same of climb against fuel, which rests on two fits. */
  readonly tradeOffFits: TradeOffFits | null
}

/** A question, and the fit its answer rests on. */
export interface Answered {
  readonly question: Question
  readonly fitId: string
}

export interface TradeOffFits {
  readonly climbFitId: string
  readonly fuelFitId: string
}

/** The question in an address; what is missing or makes no sense becomes the usual. */
export function questionIn(search: string): Question {
  const query = new URLSearchParams(search)
  const number = (name: string) => {
    const text = query.get(name)
    return text === null || text === '' || !Number.isFinite(Number(text)) ? null : Number(text)
  }
  const oneOf = <T extends string>(name: string, all: readonly T[], usual: T): T =>
    all.find((one) => one === query.get(name)) ?? usual
  return {
    metric: oneOf('metric', METRICS, 'climbRate'),
    setups: [...new Set((query.get('setups') ?? '').split(',').filter((id) => id !== ''))],
    massClass: oneOf('massClass', Object.keys(MASS_CLASSES) as MassClass[], '100to120'),
    allUpMassKg: number('allUpMassKg'),
    elevationM: number('elevationM') ?? 0,
    temperatureC: number('temperatureC'),
    wingId: query.get('wingId'),
    soundPosition: oneOf('soundPosition', ['pilotEar', 'distance'], 'pilotEar'),
    tankL: number('tankL'),
    reserveL: number('reserveL'),
    evidence: oneOf('evidence', ['all', 'class'], 'all'),
    excludeInterested: query.get('excludeInterested') === 'true',
    fitId: query.get('fitId'),
    tradeOffFits: tradeOffFitsIn(query),
  }
}

function tradeOffFitsIn(query: URLSearchParams): TradeOffFits | null {
  const [climbFitId, fuelFitId] = [query.get('climbFitId'), query.get('fuelFitId')]
  return climbFitId === null || fuelFitId === null ? null : { climbFitId, fuelFitId }
}

/** For whom and where, as every call of the interface takes it. */
export function stateOf(question: Question) {
  const { massClass, allUpMassKg, elevationM, temperatureC, wingId } = question
  return {
    ...(allUpMassKg === null ? { massClass } : { allUpMassKg }),
    ...(elevationM === 0 ? {} : { elevationM }),
    ...(temperatureC === null ? {} : { temperatureC }),
    ...(wingId === null ? {} : { wingId }),
  }
}

/** By what, for whom and where: what every call about one metric takes. */
export function conditionsOf(question: Question) {
  const { metric, soundPosition, fitId } = question
  return {
    metric,
    ...stateOf(question),
    ...(metric === 'soundLevel' ? { soundPosition } : {}),
    ...(fitId === null ? {} : { fitId }),
  }
}

/** The same, and which tests count. */
export function askedOf(question: Question) {
  return { ...conditionsOf(question), ...testsOf(question) }
}

/** Which tests count. */
export function testsOf({ evidence, excludeInterested }: Question) {
  return {
    ...(evidence === 'all' ? {} : { evidence }),
    ...(excludeInterested ? { excludeInterested: 'true' as const } : {}),
  }
}

/**
 * The fits of climb against fuel: those of the address, and in any case that of the answer itself, so
 * that all parts of a page rest on the same.
 */
export function pairedFits({ question, fitId }: Answered): Partial<TradeOffFits> {
  const { quantity } = METRIC_FACTS[question.metric]
  const named = question.tradeOffFits ?? {}
  if (quantity === 'inducedPower') return { ...named, climbFitId: fitId }
  return quantity === 'fuelFlow' ? { ...named, fuelFitId: fitId } : named
}

/** What is in the tank and stays in it, as predictions take it; null where no tank is given. */
export function tankOf({ tankL, reserveL }: Pick<Question, 'tankL' | 'reserveL'>) {
  if (tankL === null) return null
  return { tankL, ...(reserveL === null || reserveL >= tankL ? {} : { reserveL }) }
}

/** The address of the page that asks it. */
export function addressOf(question: Question): string {
  const query = new URLSearchParams()
  const parts = { ...askedOf(question), ...tankOf(question), ...question.tradeOffFits }
  for (const [name, value] of Object.entries(parts)) query.set(name, String(value))
  if (question.setups.length > 0) query.set('setups', question.setups.join(','))
  return `/compare?${query.toString().replaceAll('%2C', ',')}`
}
