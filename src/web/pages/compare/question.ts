import { MASS_CLASSES, type MassClass } from '../../../core/comparison/mass-classes.ts'
import { METRICS, type Metric } from '../../../core/comparison/metric.ts'

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
  /** An earlier fit, to see an answer as it was. */
  readonly fitId: string | null
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
    fitId: query.get('fitId'),
  }
}

/** The part of the question that both calls of the interface take. */
export function conditionsOf(question: Question) {
  const { metric, massClass, allUpMassKg, elevationM, temperatureC, wingId, fitId } = question
  return {
    metric,
    ...(allUpMassKg === null ? { massClass } : { allUpMassKg }),
    ...(elevationM === 0 ? {} : { elevationM }),
    ...(temperatureC === null ? {} : { temperatureC }),
    ...(wingId === null ? {} : { wingId }),
    ...(metric === 'soundLevel' ? { soundPosition: question.soundPosition } : {}),
    ...(fitId === null ? {} : { fitId }),
  }
}

/** What is in the tank and stays in it, as predictions take it; null where no tank is given. */
export function tankOf({ tankL, reserveL }: Pick<Question, 'tankL' | 'reserveL'>) {
  if (tankL === null) return null
  return { tankL, ...(reserveL === null || reserveL >= tankL ? {} : { reserveL }) }
}

/** The address of the page that asks it. */
export function addressOf(question: Question): string {
  const query = new URLSearchParams()
  for (const [name, value] of Object.entries(conditionsOf(question))) query.set(name, String(value))
  for (const [name, value] of Object.entries(tankOf(question) ?? {})) query.set(name, String(value))
  if (question.setups.length > 0) query.set('setups', question.setups.join(','))
  return `/compare?${query.toString().replaceAll('%2C', ',')}`
}
