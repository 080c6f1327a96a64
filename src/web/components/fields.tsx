import { useId } from 'preact/hooks'

import { useReading } from '../settings.ts'
import { type Dimension, type Entered, entered, spanOf, textIn } from '../units.ts'

/** What is said beside a field. */
export interface Remarks {
  /** What is wrong: it cannot be sent like this. */
  readonly faults?: readonly string[]
  /** What is unusual or was assumed: it can be sent. */
  readonly doubts?: readonly string[]
}

interface Labelled extends Remarks {
  readonly label: string
  readonly hint?: string
  readonly isOptional?: boolean
}

interface NumberProps extends Labelled {
  /** Where readers choose the unit; otherwise `sign` says it. */
  readonly dimension?: Dimension
  readonly sign?: string
  /** A difference, such as an uncertainty. */
  readonly isSpan?: boolean
  readonly value: Entered
  readonly onChange: (value: Entered) => void
}

const PLAIN = { id: '', sign: '', name: '', decimals: 4, toStored: same, toReader: same }

function same(value: number): number {
  return value
}

/** A number with its unit, read in the reader's unit, stored in that of the interface. */
export function NumberField(props: NumberProps) {
  const { dimension, value, onChange } = props
  const id = useId()
  const reading = useReading()
  const of = dimension === undefined ? PLAIN : reading.unit(dimension)
  const unit = props.isSpan === true ? spanOf(of) : of
  const text = textIn(value, unit)
  const isNoNumber = text.trim() !== '' && value.stored === null
  const faults = isNoNumber ? ['This is not a number.'] : (props.faults ?? [])
  const sign = dimension === undefined ? props.sign : unit.sign
  return (
    <Row id={id} {...props} faults={faults}>
      <span class="measure">
        <input
          id={id}
          type="text"
          inputMode="decimal"
          autocomplete="off"
          value={text}
          aria-invalid={faults.length > 0}
          aria-describedby={`${id}-about`}
          onInput={(event) => onChange(entered(event.currentTarget.value, unit))}
        />
        {sign !== undefined && sign !== '' && (
          <span class="unit" aria-hidden="true">
            {sign}
          </span>
        )}
      </span>
    </Row>
  )
}

interface TextProps extends Labelled {
  readonly value: string
  readonly onChange: (value: string) => void
  readonly type?: 'text' | 'date' | 'email' | 'password' | 'search'
  readonly autocomplete?: string
  readonly max?: string
}

export function TextField(props: TextProps) {
  const { value, onChange, type = 'text', autocomplete = 'off', max } = props
  const id = useId()
  return (
    <Row id={id} {...props}>
      <input
        id={id}
        type={type}
        value={value}
        autocomplete={autocomplete}
        max={max}
        aria-invalid={(props.faults ?? []).length > 0}
        aria-describedby={`${id}-about`}
        onInput={(event) => onChange(event.currentTarget.value)}
      />
    </Row>
  )
}

interface FileProps extends Labelled {
  /** Kinds of file, as the browser takes them. */
  readonly accept: string
  readonly onChange: (file: File | null) => void
}

/** A file of this device. */
export function FileField(props: FileProps) {
  const id = useId()
  return (
    <Row id={id} {...props}>
      <input
        id={id}
        type="file"
        accept={props.accept}
        aria-describedby={`${id}-about`}
        onChange={({ currentTarget: { files } }) => props.onChange(files?.[0] ?? null)}
      />
    </Row>
  )
}

interface ChoiceProps<T extends string> extends Labelled {
  readonly value: T
  readonly choices: readonly (readonly [value: T, label: string])[]
  readonly onChange: (value: T) => void
}

export function ChoiceField<T extends string>(props: ChoiceProps<T>) {
  const { value, choices, onChange } = props
  const id = useId()
  return (
    <Row id={id} {...props}>
      <select
        id={id}
        value={value}
        aria-describedby={`${id}-about`}
        onChange={(event) => onChange(event.currentTarget.value as T)}
      >
        {choices.map(([choice, label]) => (
          <option key={choice} value={choice}>
            {label}
          </option>
        ))}
      </select>
    </Row>
  )
}

function Row(
  props: Labelled & { readonly id: string; readonly children: preact.ComponentChildren },
) {
  const { id, label, hint, isOptional = false, faults = [], doubts = [], children } = props
  return (
    <div class={faults.length > 0 ? 'field field-fault' : 'field'}>
      <label for={id}>
        {label}
        {isOptional && <span class="optional"> optional</span>}
      </label>
      {children}
      <div id={`${id}-about`} class="about">
        {hint !== undefined && <p class="hint">{hint}</p>}
        {faults.map((fault) => (
          <p class="fault" key={fault}>
            {fault}
          </p>
        ))}
        {doubts.map((doubt) => (
          <p class="doubt" key={doubt}>
            {doubt}
          </p>
        ))}
      </div>
    </div>
  )
}

/** A few choices, all in sight, with large targets. */
export function RadioRow<T extends string>(props: {
  readonly legend: string
  readonly value: T | null
  readonly choices: readonly (readonly [value: T, label: string])[]
  readonly onChange: (value: T) => void
}) {
  const name = useId()
  return (
    <fieldset class="radios">
      <legend>{props.legend}</legend>
      <div class="radio-row">
        {props.choices.map(([choice, label]) => (
          <label key={choice}>
            <input
              type="radio"
              name={name}
              checked={props.value === choice}
              onChange={() => props.onChange(choice)}
            />
            <span>{label}</span>
          </label>
        ))}
      </div>
    </fieldset>
  )
}
