import { useState } from 'preact/hooks'

interface Props {
  /** On the button that asks. */
  readonly label: string
  /** On the button that does it. */
  readonly yes: string
  readonly no?: string
  /** What it would mean, said before it is done. */
  readonly about?: string
  readonly isQuiet?: boolean
  readonly onSure: () => void
}

/** Two presses for what cannot be taken back: a glove slips easily. */
export function SureButton({ label, yes, no = 'No, keep it', about, isQuiet, onSure }: Props) {
  const [isAsked, setAsked] = useState(false)
  if (!isAsked) {
    return (
      <button type="button" class={isQuiet ? 'quiet' : undefined} onClick={() => setAsked(true)}>
        {label}
      </button>
    )
  }
  return (
    <fieldset class="row sure">
      <legend class="visually-hidden">{label}</legend>
      {about !== undefined && <span>{about}</span>}
      <button
        type="button"
        class="stop-button"
        onClick={() => {
          setAsked(false)
          onSure()
        }}
      >
        {yes}
      </button>
      <button type="button" autofocus onClick={() => setAsked(false)}>
        {no}
      </button>
    </fieldset>
  )
}
