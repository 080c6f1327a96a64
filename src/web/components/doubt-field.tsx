import type { Dimension, Entered } from '../units.ts'
import { NOTHING_ENTERED } from '../units.ts'
import { NumberField, type Remarks } from './fields.tsx'

interface Props extends Remarks {
  readonly summary: string
  readonly label: string
  readonly dimension?: Dimension
  readonly value: Entered | undefined
  readonly onChange: (value: Entered) => void
}

/** The standard uncertainty of one reading: out of the way of those who do not know it. */
export function DoubtField({ summary, value = NOTHING_ENTERED, ...field }: Props) {
  return (
    <details open={value.text !== ''}>
      <summary>{summary}</summary>
      <NumberField
        {...field}
        isOptional
        hint="One standard deviation, if you know it; otherwise a usual value is taken"
        value={value}
      />
    </details>
  )
}
