import { ChoiceField, NumberField } from '../../components/fields.tsx'
import { Fold } from '../../components/fold.tsx'
import { useReading } from '../../settings.ts'
import { NOTHING_ENTERED } from '../../units.ts'
import type { RunForm } from './form.ts'
import { askedOf, isAsked } from './run-body.ts'
import type { RunProps } from './run-card.tsx'
import { type ChoiceSpec, isSharedByRuns, LEGS, type NumberSpec, RUN_SPECS } from './run-fields.ts'

type Props = Pick<RunProps, 'run' | 'drive' | 'number' | 'pointer' | 'remarksAt' | 'onChange'>

/** The readings of a run. From the second run of a kind on, what both share stands folded. */
export function Readings(props: Props) {
  const { run, number, pointer, remarksAt } = props
  const asked = askedOf(props)
  const choices = RUN_SPECS[run.kind].choices.filter((choice) => isAsked(choice, props))
  const shared = asked.filter(({ at }) => isSharedByRuns(at))
  const each = asked.filter(({ at }) => !isSharedByRuns(at))
  // Without a time or a leg nothing tells runs apart but their readings: then all stay in sight.
  if (number === 1 || each.length === 0) return <Fields {...props} {...{ asked, choices }} />
  const remarks = [...shared, ...choices].map(({ at }) => remarksAt(`${pointer}/${at}`))
  return (
    <>
      <Fields {...props} asked={each} choices={[]} />
      <Fold
        line={useLine(run, shared, choices)}
        doubts={remarks.flatMap(({ doubts = [] }) => doubts).length}
        hasFault={remarks.some(({ faults = [] }) => faults.length > 0)}
      >
        <Fields {...props} asked={shared} choices={choices} />
      </Fold>
    </>
  )
}

interface FieldsProps extends Props {
  readonly asked: readonly NumberSpec[]
  readonly choices: readonly ChoiceSpec[]
}

function Fields({ run, asked, choices, pointer, remarksAt, onChange }: FieldsProps) {
  return (
    <div class="fields">
      {asked.map((field) => (
        <NumberField
          key={field.at}
          {...field}
          value={run.values[field.at] ?? NOTHING_ENTERED}
          {...remarksAt(`${pointer}/${field.at}`)}
          onChange={(value) => onChange({ ...run, values: { ...run.values, [field.at]: value } })}
        />
      ))}
      {choices.map(({ at, label, choices: all }) => (
        <ChoiceField
          key={at}
          label={label}
          value={run.choices[at] ?? all[0]![0]}
          choices={all}
          {...remarksAt(`${pointer}/${at}`)}
          onChange={(value) => onChange({ ...run, choices: { ...run.choices, [at]: value } })}
        />
      ))}
    </div>
  )
}

/** As before · Height gained 100 m · Barometric altimeter */
function useLine(
  run: RunForm,
  numbers: readonly NumberSpec[],
  choices: readonly ChoiceSpec[],
): string {
  const reading = useReading()
  const read = numbers.map(({ at, label, dimension, sign = '' }) => {
    const stored = run.values[at]?.stored ?? null
    if (stored === null) return ''
    const value =
      dimension === undefined ? `${stored} ${sign}` : reading.quantity(dimension, stored)
    return `${label} ${value}`
  })
  const chosen = choices.map(({ at, choices: all }) => {
    const [, label] = all.find(([value]) => value === run.choices[at]) ?? all[0]!
    return label
  })
  return ['As before', ...read, ...chosen].filter((part) => part.trim() !== '').join(' · ')
}

/** More headings than the three that are needed. */
export function Legs({ run, onChange }: Pick<Props, 'run' | 'onChange'>) {
  const legs = run.legs ?? LEGS.least
  return (
    <div class="row">
      {legs < LEGS.most && (
        <button type="button" onClick={() => onChange({ ...run, legs: legs + 1 })}>
          Another leg
        </button>
      )}
      {legs > LEGS.least && (
        <button type="button" class="quiet" onClick={() => onChange({ ...run, legs: legs - 1 })}>
          Leave out leg {legs}
        </button>
      )}
    </div>
  )
}
