import type { Schemas } from '../../../api/client.ts'
import { useAnswer } from '../../../api/use-answer.ts'
import { ChoiceField, NumberField, TextField } from '../../../components/fields.tsx'
import { AnswerState } from '../../../components/notices.tsx'
import { NOTHING_ENTERED } from '../../../units.ts'
import { PART_SPECS, type PartForm, type PartKind } from './part-form.ts'

interface Props {
  readonly kind: PartKind
  readonly part: PartForm
  /** Fields of a typed part that are still needed, once it was tried to add it. */
  readonly lacking: readonly string[]
  /** What the catalogue has under this name already, when it refused the part for that. */
  readonly known: Schemas['Component'] | null
  /** Why it was refused otherwise, by field. */
  readonly refused: readonly FieldError[]
  readonly onChange: (part: PartForm) => void
}

type FieldError = { readonly pointer: string; readonly detail: string }

/** One part of the new setup: chosen, or typed with what it needs. */
export function PartFields({ kind, part, lacking, known, refused, onChange }: Props) {
  const { label } = PART_SPECS[kind]
  const asked = useAnswer('/v1/components', { query: { kind, limit: 200 } })
  const items = asked.got?.body.items ?? []
  const isListed = known === null || items.some(({ id }) => id === known.id)
  const listed = isListed ? items : [...items, known]
  return (
    <fieldset>
      <legend>{label}</legend>
      <AnswerState asked={asked} />
      <ChoiceField
        label={`Which ${label.toLowerCase()}?`}
        value={part.id ?? ''}
        choices={[
          ['', 'Not in the list: typed below'],
          ...listed.map((one) => [one.id, nameOf(one)] as const),
        ]}
        onChange={(id) => onChange({ ...part, id: id === '' ? null : id })}
      />
      {part.id === null && <Typed {...{ kind, part, lacking, refused, onChange }} />}
      {part.id === null && known !== null && (
        <div class="notice" role="alert">
          <p>
            The catalogue has it already: {nameOf(known)}. If yours is another, say in which figure
            it differs.
          </p>
          <button type="button" onClick={() => onChange({ ...part, id: known.id })}>
            Take {nameOf(known)}
          </button>
        </div>
      )}
    </fieldset>
  )
}

function Typed({ kind, part, lacking, refused, onChange }: Omit<Props, 'known'>) {
  const { numbers, choices } = PART_SPECS[kind]
  const faultsOf = (at: string) => ({
    faults: [
      ...(lacking.includes(at) ? ['This is needed.'] : []),
      ...refused.filter(({ pointer }) => pointer === `/${at}`).map(({ detail }) => detail),
    ],
  })
  return (
    <div class="fields">
      {(['maker', 'model'] as const).map((at) => (
        <TextField
          key={at}
          label={at === 'maker' ? 'Maker' : 'Model'}
          value={part[at]}
          {...faultsOf(at)}
          onChange={(text) => onChange({ ...part, [at]: text })}
        />
      ))}
      {numbers.map(({ at, ...field }) => (
        <NumberField
          key={at}
          {...field}
          value={part.values[at] ?? NOTHING_ENTERED}
          {...faultsOf(at)}
          onChange={(value) => onChange({ ...part, values: { ...part.values, [at]: value } })}
        />
      ))}
      {choices.map(({ at, label, choices: all }) => (
        <ChoiceField
          key={at}
          label={label}
          value={part.choices[at] ?? all[0]![0]}
          choices={all}
          {...faultsOf(at)}
          onChange={(value) => onChange({ ...part, choices: { ...part.choices, [at]: value } })}
        />
      ))}
    </div>
  )
}

function nameOf(component: Schemas['Component']): string {
  const { maker, model } = component
  const diameter = component.kind === 'propeller' ? `, ${component.diameterCm} cm` : ''
  const tune = component.kind === 'powerplant' && component.tune === 'modified' ? ', modified' : ''
  return `${maker} ${model}${diameter}${tune}`
}
