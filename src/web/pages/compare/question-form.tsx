import { useState } from 'preact/hooks'

import type { Schemas } from '../../api/client.ts'
import { useAnswer } from '../../api/use-answer.ts'
import { ChoiceField, NumberField, RadioRow } from '../../components/fields.tsx'
import { SetupSearch } from '../../components/setup-search.tsx'
import { MASS_CLASS_CHOICES, type MassClass, METRIC_CHOICES } from '../../metrics.ts'
import { useReading } from '../../settings.ts'
import { type Dimension, type Entered, enteredFrom } from '../../units.ts'
import type { Question } from './question.ts'

interface Props {
  readonly question: Question
  readonly onChange: (question: Question) => void
  /** Names of chosen setups, as far as they are known. */
  readonly names: ReadonlyMap<string, string>
}

/** Three questions: compare what, for which mass, where. Each answer changes the result at once. */
export function QuestionForm({ question, onChange, names }: Props) {
  const change = (part: Partial<Question>) =>
    onChange({ ...question, fitId: null, tradeOffFits: null, ...part })
  return (
    <form class="question no-print" onSubmit={(event) => event.preventDefault()}>
      <RadioRow
        legend="Compare by"
        value={question.metric}
        choices={METRIC_CHOICES}
        onChange={(metric) => change({ metric })}
      />
      <RadioRow<MassClass>
        legend="All-up mass in kg: pilot, wing, engine, fuel"
        value={question.allUpMassKg === null ? question.massClass : null}
        choices={MASS_CLASS_CHOICES}
        onChange={(massClass) => change({ massClass, allUpMassKg: null })}
      />
      <OwnConditions question={question} change={change} />
      <WhichTests question={question} change={change} />
      <ChosenSetups question={question} change={change} names={names} />
    </form>
  )
}

interface Part {
  readonly question: Question
  readonly change: (part: Partial<Question>) => void
}

function OwnConditions({ question, change }: Part) {
  const [isOpen, setOpen] = useState(
    question.allUpMassKg !== null ||
      question.elevationM !== 0 ||
      question.temperatureC !== null ||
      question.wingId !== null ||
      question.tankL !== null,
  )
  return (
    <details open={isOpen} onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>Own mass, field, wing and tank</summary>
      <div class="fields">
        <Condition
          label="All-up mass"
          dimension="mass"
          stored={question.allUpMassKg}
          within={[60, 500]}
          onChange={(allUpMassKg) => change({ allUpMassKg })}
        />
        <Condition
          label="Elevation of the field"
          dimension="height"
          stored={question.elevationM === 0 ? null : question.elevationM}
          within={[-430, 5500]}
          onChange={(elevationM) => change({ elevationM: elevationM ?? 0 })}
        />
        <Condition
          label="Air temperature"
          dimension="temperature"
          stored={question.temperatureC}
          within={[-40, 55]}
          onChange={(temperatureC) => change({ temperatureC })}
        />
        {isOpen && <WingChoice question={question} change={change} />}
        <Condition
          label="Fuel on board"
          dimension="tank"
          stored={question.tankL}
          within={[0.5, 60]}
          onChange={(tankL) => change({ tankL })}
        />
        <Condition
          label="Kept in reserve"
          dimension="tank"
          stored={question.reserveL}
          within={[0, question.tankL === null ? 60 : Number((question.tankL - 0.1).toFixed(1))]}
          onChange={(reserveL) => change({ reserveL })}
        />
        {question.metric === 'soundLevel' && (
          <ChoiceField
            label="Measured where"
            value={question.soundPosition}
            choices={[
              ['pilotEar', 'At the ear of the pilot'],
              ['distance', 'At a distance of 20 m'],
            ]}
            onChange={(soundPosition) => change({ soundPosition })}
          />
        )}
      </div>
    </details>
  )
}

const MASS_CHOICES = [
  ['all', 'Of every mass, brought to yours'],
  ['class', 'Only of this mass class'],
] as const

const PEOPLE_CHOICES = [
  ['everybody', 'Of everybody'],
  ['free', 'Without those who sell, make or were given it'],
] as const

/** Whose tests the answer rests on, and of which mass. */
function WhichTests({ question, change }: Part) {
  const { evidence, excludeInterested } = question
  const [isOpen, setOpen] = useState(evidence !== 'all' || excludeInterested)
  return (
    <details open={isOpen} onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>Which tests count</summary>
      <RadioRow
        legend="Tests by people"
        value={excludeInterested ? 'free' : 'everybody'}
        choices={PEOPLE_CHOICES}
        onChange={(people) => change({ excludeInterested: people === 'free' })}
      />
      <RadioRow
        legend="Tests by mass"
        value={evidence}
        choices={MASS_CHOICES}
        onChange={(next) => change({ evidence: next })}
      />
    </details>
  )
}

function Condition(props: {
  readonly label: string
  readonly dimension: Dimension
  readonly stored: number | null
  readonly within: readonly [number, number]
  readonly onChange: (stored: number | null) => void
}) {
  const { label, dimension, stored, within, onChange } = props
  const reading = useReading()
  const [value, setValue] = useState<Entered>(() =>
    enteredFrom(stored ?? undefined, reading.unit(dimension)),
  )
  const isOutside = value.stored !== null && (value.stored < within[0] || value.stored > within[1])
  const [low, high] = within.map((bound) => reading.quantity(dimension, bound))
  return (
    <NumberField
      label={label}
      isOptional
      dimension={dimension}
      value={value}
      faults={isOutside ? [`It must lie between ${low} and ${high}.`] : []}
      onChange={(next) => {
        setValue(next)
        const isUsable =
          next.stored === null || (next.stored >= within[0] && next.stored <= within[1])
        if (isUsable) onChange(next.stored)
      }}
    />
  )
}

function WingChoice({ question, change }: Part) {
  const asked = useAnswer('/v1/components', { query: { kind: 'wing', limit: 200 } })
  const wings = (asked.got?.body.items ?? []) as readonly Schemas['Wing'][]
  return (
    <ChoiceField
      label="Wing"
      value={question.wingId ?? ''}
      choices={[
        ['', 'A usual one for the mass'],
        ...wings.map(({ id, maker, model }) => [id, `${maker} ${model}`] as const),
      ]}
      onChange={(id) => change({ wingId: id === '' ? null : id })}
    />
  )
}

function ChosenSetups({ question, change, names }: Part & Pick<Props, 'names'>) {
  const { setups } = question
  return (
    <div class="chosen">
      <SetupSearch
        label={setups.length === 0 ? 'Only certain setups' : 'Another setup'}
        without={setups}
        onChoose={({ id }) => change({ setups: [...setups, id] })}
      />
      {setups.length > 0 && (
        <ul class="chips">
          {setups.map((id) => (
            <li key={id}>
              <span>{names.get(id) ?? 'Chosen setup'}</span>
              <button
                type="button"
                aria-label={`Leave out ${names.get(id) ?? 'this setup'}`}
                onClick={() => change({ setups: setups.filter((other) => other !== id) })}
              >
                ×
              </button>
            </li>
          ))}
        </ul>
      )}
      {setups.length === 1 && <p class="hint">Choose at least one more to compare it with.</p>}
    </div>
  )
}
