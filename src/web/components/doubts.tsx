import { useState } from 'preact/hooks'

import { type Dimension, type Entered, NOTHING_ENTERED } from '../units.ts'
import { NumberField, type Remarks } from './fields.tsx'

/** A reading that somebody may know the uncertainty of. */
export interface Doubtable extends Remarks {
  readonly at: string
  readonly label: string
  readonly dimension?: Dimension
  readonly sign?: string
  /** The reading itself: what was not read has no uncertainty. */
  readonly reading: Entered
}

interface Props {
  readonly summary: string
  readonly readings: readonly Doubtable[]
  readonly stated: Readonly<Record<string, Entered>> | undefined
  readonly onChange: (stated: Readonly<Record<string, Entered>>) => void
}

/** Standard uncertainties of what was read: out of the way of those who do not know them. */
export function Doubts({ summary, readings, stated = {}, onChange }: Props) {
  const asked = readings.filter(({ reading }) => reading.stored !== null)
  const isStated = asked.some(({ at }) => (stated[at] ?? NOTHING_ENTERED).text !== '')
  const [isOpen, setOpen] = useState(isStated)
  if (asked.length === 0) return null
  return (
    <details open={isOpen} onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>{summary}</summary>
      {isOpen && <Fields {...{ asked, stated, onChange }} />}
    </details>
  )
}

function Fields(props: {
  readonly asked: readonly Doubtable[]
  readonly stated: Readonly<Record<string, Entered>>
  readonly onChange: Props['onChange']
}) {
  const { asked, stated, onChange } = props
  return (
    <>
      <p class="hint">
        One standard deviation of each, if you know it. Left open, usual values are taken.
      </p>
      <div class="fields">
        {asked.map(({ at, label, reading: _, ...field }) => (
          <NumberField
            key={at}
            {...field}
            label={`± ${label}`}
            isOptional
            isSpan
            value={stated[at] ?? NOTHING_ENTERED}
            onChange={(doubt) => onChange({ ...stated, [at]: doubt })}
          />
        ))}
      </div>
    </>
  )
}
