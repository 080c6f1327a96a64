import { useEffect, useState } from 'preact/hooks'

import { get, type Schemas } from '../../api/client.ts'
import type { Asked } from '../../api/use-answer.ts'
import { type FiguresRow, FiguresTable } from '../../components/figures-table.tsx'
import { AnswerState, Failure, Progress } from '../../components/notices.tsx'
import { SetupName } from '../../components/setup-name.tsx'
import { steadiness } from '../../readings.ts'
import { type Reading, useReading } from '../../settings.ts'
import { writeNumber } from '../../units.ts'
import type { Shown } from './compare-page.tsx'
import { pairedFits, type Question, tankOf, testsOf } from './question.ts'

/** As many are asked for, one after the other. */
const MOST = 20

type Setup = Schemas['ComparedSetup']
type Predictions = Schemas['Prediction']['predictions']

interface Props {
  readonly question: Question
  readonly shown: Shown
  /** Climb against fuel of the same setups: the tank rests on its fit of burns. */
  readonly tradeOff: Asked<Schemas['TradeOff']>
}

/** How long and how far each setup goes on the reader's own tank, from the flights of the answer. */
export function TankSection({ question, shown, tradeOff }: Props) {
  const tank = tankOf(question)
  const own = pairedFits({ question, fitId: shown.head.fitId }).fuelFitId
  const fuelFitId = own ?? tradeOff.got?.body.fuelFitId ?? null
  const setups = tank === null ? [] : [...shown.ranked, ...shown.others].slice(0, MOST)
  const { found, error } = useForecasts(setups, question, {
    allUpMassKg: shown.head.conditions.allUpMassKg,
    fuelFitId,
  })
  const reading = useReading()
  if (tank === null) return null
  const fuel = (litres: number) => reading.quantity('tank', litres)
  const reserve =
    tank.reserveL === undefined ? 'no reserve' : `${fuel(tank.reserveL)} kept in reserve`
  return (
    <section class={question.setups.length >= 2 ? '' : 'no-print'}>
      <h2 id="tank">From the tank</h2>
      <p>
        Level flight at trim in still air on {fuel(tank.tankL)}, {reserve}, at the conditions of the
        answer above. Wind against you shortens the distance. With 95 % certainty, as a mean over
        pilots and evenings.
      </p>
      {error !== null && <Failure error={error} />}
      {fuelFitId === null && <AnswerState asked={tradeOff} />}
      {fuelFitId !== null && error === null && found.size < setups.length && (
        <Progress what="Tanks worked out" of={[found.size, setups.length]} />
      )}
      <FiguresTable
        label="From the tank"
        heads={['Setup', 'Time, h', `Distance, ${reading.unit('distance').sign}`]}
        rows={setups.map((setup) => lineOf(setup, found.get(setup.setupId), reading))}
      />
      {found.size === setups.length && (
        <p>
          {steadiness(setups.map(({ setupId, name }) => enduranceOf(found.get(setupId), name)))}
        </p>
      )}
      {fuelFitId !== null && (
        <p class="hint">
          Worked out from fit {fuelFitId} of fuel in level flight,{' '}
          {question.metric === 'fuelFlow' ? 'as the answer is' : 'as climb against fuel is'}.
        </p>
      )}
    </section>
  )
}

/** What other fits say of the time; of the distance they say the same, by the airspeed at trim. */
function enduranceOf(forecast: Predictions | undefined, name: string) {
  return { ...forecast?.endurance, name }
}

function lineOf(setup: Setup, forecast: Predictions | undefined, reading: Reading): FiguresRow {
  const refused = forecast?.endurance.refused ?? forecast?.range.refused
  return {
    key: setup.setupId,
    head: (
      <>
        <SetupName setup={setup} />
        {refused !== undefined && <span class="reason"> {refused.reason}</span>}
      </>
    ),
    cells: [
      spanOf(forecast?.endurance, (hours) => writeNumber(hours, 1)),
      spanOf(forecast?.range, (km) => reading.number('distance', km)),
    ],
  }
}

function spanOf(
  quantity: Schemas['PredictedQuantity'] | undefined,
  write: (stored: number) => string,
): string {
  if (quantity === undefined) return '…'
  const { value, interval95 } = quantity
  if (value === null) return '–'
  if (interval95 === null) return write(value)
  return `${write(value)} (${write(interval95[0])} to ${write(interval95[1])})`
}

/** One call for each setup, one after the other, so that the service has time for others. */
function useForecasts(
  setups: readonly Setup[],
  question: Question,
  { allUpMassKg, fuelFitId }: { readonly allUpMassKg: number; readonly fuelFitId: string | null },
) {
  const [found, setFound] = useState<ReadonlyMap<string, Predictions>>(new Map())
  const [error, setError] = useState<Error | null>(null)
  const { elevationM, temperatureC, wingId } = question
  const query = {
    ...tankOf(question),
    ...testsOf(question),
    ...(fuelFitId === null ? {} : { fitId: fuelFitId }),
    allUpMassKg,
    elevationM,
    ...(temperatureC === null ? {} : { temperatureC }),
    ...(wingId === null ? {} : { wingId }),
  }
  const ids = setups.map(({ setupId }) => setupId)
  const key = JSON.stringify([ids, query])
  useEffect(() => {
    const abort = new AbortController()
    const { signal } = abort
    const collect = async () => {
      const collected = new Map<string, Predictions>()
      for (const id of ids) {
        const { body } = await get('/v1/setups/{id}/predictions', { path: { id }, query, signal })
        collected.set(id, body.predictions)
        setFound(new Map(collected))
      }
    }
    setFound(new Map())
    setError(null)
    if (fuelFitId === null) return
    collect().catch((fault: unknown) => {
      if (!signal.aborted) setError(fault as Error)
    })
    return () => abort.abort()
    // The key stands for all of it.
  }, [key])
  return { found, error }
}
