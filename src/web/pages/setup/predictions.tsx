import { useState } from 'preact/hooks'

import type { Schemas } from '../../api/client.ts'
import { useAnswer } from '../../api/use-answer.ts'
import { NumberField } from '../../components/fields.tsx'
import { type FiguresRow, FiguresTable } from '../../components/figures-table.tsx'
import { AnswerState } from '../../components/notices.tsx'
import { besideText, otherReadings, steadiness } from '../../readings.ts'
import { type Reading, useReading } from '../../settings.ts'
import { lastSession } from '../../store/last-session.ts'
import { type Dimension, type Entered, NOTHING_ENTERED, writeNumber } from '../../units.ts'
import { Curves } from './curves.tsx'

interface Props {
  readonly setupId: string
  readonly drive: 'twoStroke' | 'fourStroke' | 'electric'
}

/** What to expect of it at the reader's own mass, field and tank. */
export function Predictions({ setupId, drive }: Props) {
  const own = lastSession()
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
      <div class="fields no-print">
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
          <NumberField
            label="Fuel on board"
            isOptional
            dimension="tank"
            value={tank}
            onChange={setTank}
          />
        )}
      </div>
      <AnswerState asked={asked} />
      {answer !== undefined && <Expected answer={answer} />}
      <Curves setupId={setupId} conditions={conditions} fits={answer?.fits} />
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
  ['electricPower', 'Battery power in level flight', 'electricPower'],
  ['staticThrust', 'Static thrust', 'force'],
  ['endurance', 'Time in level flight', null, 1],
  ['range', 'Distance in still air', 'distance'],
  ['airspeed', 'Airspeed at trim', 'speed'],
  ['densityAltitude', 'Density altitude', 'height'],
]

function Expected({ answer }: { readonly answer: Schemas['Prediction'] }) {
  const reading = useReading()
  const { allUpMassKg, elevationM, temperatureC } = answer.conditions
  return (
    <>
      <FiguresTable
        label="What to expect"
        heads={[
          'Quantity',
          'Estimate',
          'Mean of many flights, 95 %',
          'One pilot, one evening, 95 %',
          'Doubt comes mostly from',
          'Does it hold?',
        ]}
        rows={LINES.filter(([key]) => !isOfOtherDrive(answer.predictions[key])).map((line) =>
          lineOf(line, answer.predictions[line[0]], reading),
        )}
      />
      <p>{steadiness(foundOf(answer))}</p>
      <p class="hint">
        95 %: of a hundred such spans, about ninety-five hold the truth. One evening varies more
        than the mean of many.
      </p>
      <details>
        <summary>
          At {reading.quantity('mass', allUpMassKg.value)} all-up,{' '}
          {reading.quantity('height', elevationM)},{' '}
          {reading.quantity('temperature', temperatureC.value)}
        </summary>
        <p>Taken for granted, because the question left it open:</p>
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

/** Each quantity with what other fits find of it, by its name. */
function foundOf({ predictions }: Schemas['Prediction']) {
  return LINES.filter(([key]) => !isOfOtherDrive(predictions[key])).map(([key, name]) => ({
    ...predictions[key],
    name,
  }))
}

/** Fuel of an electric drive, a battery of an engine: nothing to wait for, so no line. */
function isOfOtherDrive({ refused }: Quantity): boolean {
  return refused?.reasonCode === 'electricDrive' || refused?.reasonCode === 'combustionDrive'
}

function lineOf(
  [key, label, dimension, decimals = 1]: (typeof LINES)[number],
  quantity: Quantity,
  reading: Reading,
): FiguresRow {
  const { value, unit, interval95, interval95NextEvening, budget, refused } = quantity
  const write = (stored: number) =>
    dimension === null ? writeNumber(stored, decimals) : reading.number(dimension, stored)
  const sign = dimension === null ? unit : reading.unit(dimension).sign
  const span = (interval: readonly [number, number] | null) =>
    interval === null ? '–' : `${write(interval[0])} to ${write(interval[1])}`
  const [largest] = budget
  const others = otherReadings<{ readonly value: number | null }>(quantity, (other) =>
    other.value === null ? 'no figure' : `${write(other.value)} ${sign}`,
  )
  return {
    key,
    head: (
      <>
        {label}
        {refused !== undefined && <span class="reason">{reasonFor(refused)}</span>}
      </>
    ),
    cells: [
      value === null ? '–' : `${write(value)} ${sign}`,
      span(interval95),
      span(interval95NextEvening),
      largest === undefined ? '–' : `${largest.source}, ${Math.round(100 * largest.share)} %`,
      value === null && others.every(({ isSame }) => isSame === true) ? '–' : besideText(others),
    ],
  }
}

function reasonFor({ reasonCode, reason }: Schemas['NotPredicted']): string {
  return reasonCode === 'tankNotGiven' ? 'Say how much fuel is on board.' : reason
}
