import { useState } from 'preact/hooks'

import type { Schemas } from '../../api/client.ts'
import { useAnswer } from '../../api/use-answer.ts'
import { NumberField } from '../../components/fields.tsx'
import { AnswerState } from '../../components/notices.tsx'
import { Table } from '../../components/table.tsx'
import { useReading } from '../../settings.ts'
import { recall } from '../../store/device.ts'
import { type Dimension, type Entered, NOTHING_ENTERED, writeNumber } from '../../units.ts'
import type { LastSession } from '../submit/form.ts'
import { Curves } from './curves.tsx'

interface Props {
  readonly setupId: string
  readonly drive: 'twoStroke' | 'fourStroke' | 'electric'
}

/** What to expect of it at the reader's own mass, field and tank. */
export function Predictions({ setupId, drive }: Props) {
  const own = recall<LastSession>('lastSession')
  const [mass, setMass] = useState<Entered>(own?.allUpMassKg ?? NOTHING_ENTERED)
  const [elevation, setElevation] = useState<Entered>(own?.elevationM ?? NOTHING_ENTERED)
  const [temperature, setTemperature] = useState<Entered>(NOTHING_ENTERED)
  const [tank, setTank] = useState<Entered>(NOTHING_ENTERED)
  const conditions = {
    ...given('allUpMassKg', mass),
    ...given('elevationM', elevation),
    ...given('temperatureC', temperature),
    ...given('tankL', tank),
  }
  const asked = useAnswer('/v1/setups/{id}/predictions', {
    path: { id: setupId },
    query: conditions,
  })
  const answer = asked.got?.body
  return (
    <section>
      <h2>What to expect</h2>
      <div class="fields">
        <NumberField
          label="All-up mass"
          isOptional
          dimension="mass"
          value={mass}
          onChange={setMass}
        />
        <NumberField
          label="Elevation"
          isOptional
          dimension="height"
          value={elevation}
          onChange={setElevation}
        />
        <NumberField
          label="Temperature"
          isOptional
          dimension="temperature"
          value={temperature}
          onChange={setTemperature}
        />
        {drive !== 'electric' && (
          <NumberField label="Fuel on board" isOptional sign="L" value={tank} onChange={setTank} />
        )}
      </div>
      <AnswerState asked={asked} />
      {answer !== undefined && <Expected answer={answer} />}
      <Curves setupId={setupId} conditions={conditions} />
    </section>
  )
}

function given(name: string, { stored }: Entered): Record<string, number> {
  return stored === null ? {} : { [name]: stored }
}

type Quantity = Schemas['PredictedQuantity']

const LINES: readonly (readonly [
  key: keyof Schemas['Prediction']['predictions'],
  label: string,
  dimension: Dimension | null,
  decimals?: number,
])[] = [
  ['climbRate', 'Full-throttle climb', 'climbRate'],
  ['climbThrust', 'Thrust in that climb', 'force'],
  ['fuelFlow', 'Fuel flow in level flight', 'fuelFlow'],
  ['endurance', 'Time in level flight', null, 1],
  ['range', 'Distance in still air', null, 0],
  ['airspeed', 'Airspeed at trim', 'speed'],
  ['densityAltitude', 'Density altitude', 'height'],
]

function Expected({ answer }: { readonly answer: Schemas['Prediction'] }) {
  return (
    <>
      <Table
        label="What to expect"
        heads={[
          'Quantity',
          'Estimate',
          'Mean, 95 %',
          'One pilot, one evening, 95 %',
          'Mostly because of',
        ]}
      >
        {LINES.map(([key, label, dimension, decimals]) => (
          <Line
            key={key}
            label={label}
            dimension={dimension}
            decimals={decimals ?? 1}
            quantity={answer.predictions[key]}
          />
        ))}
      </Table>
      <details>
        <summary>Taken for granted</summary>
        <ul>
          {answer.conditions.assumed.map((sentence) => (
            <li key={sentence}>{sentence}</li>
          ))}
        </ul>
      </details>
      <ul>
        {answer.cautions.map((caution) => (
          <li key={caution}>{caution}</li>
        ))}
      </ul>
    </>
  )
}

function Line(props: {
  readonly label: string
  readonly dimension: Dimension | null
  readonly decimals: number
  readonly quantity: Quantity
}) {
  const { label, dimension, decimals, quantity } = props
  const { value, interval95, interval95NextEvening, budget, refused } = quantity
  const reading = useReading()
  const write = (stored: number) =>
    dimension === null ? writeNumber(stored, decimals) : reading.number(dimension, stored)
  const sign = dimension === null ? quantity.unit : reading.unit(dimension).sign
  const span = (interval: readonly [number, number] | null) =>
    interval === null ? '–' : `${write(interval[0])} to ${write(interval[1])}`
  return (
    <tr>
      <th scope="row">
        {label}
        {refused !== undefined && (
          <span class="reason">
            {refused.reasonCode === 'tankNotGiven'
              ? 'Say how much fuel is on board.'
              : refused.reason}
          </span>
        )}
      </th>
      <td>{value === null ? '–' : `${write(value)} ${sign}`}</td>
      <td>{span(interval95)}</td>
      <td>{span(interval95NextEvening)}</td>
      <td>
        {budget[0] === undefined
          ? '–'
          : `${budget[0].source}, ${Math.round(100 * budget[0].share)} %`}
      </td>
    </tr>
  )
}
