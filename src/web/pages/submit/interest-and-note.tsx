import { RadioRow, TextField } from '../../components/fields.tsx'
import { FoldOf, type SessionProps } from './session-part.tsx'

const INTERESTS = [
  ['none', 'None'],
  ['dealer', 'I sell it'],
  ['maker', 'I make it'],
  ['sponsored', 'It was given to me'],
] as const

/** Who gains by the result says so; what else there is to say stays with the pilot. */
export function InterestAndNote({ form, remarksAt, onChange }: SessionProps) {
  const interest = INTERESTS.find(([value]) => value === form.interest)![1]
  return (
    <section>
      <h2>Your interest in the result</h2>
      <FoldOf {...{ form, remarksAt }} line={interest} pointers={['/interest']}>
        <p>It is shown with every answer that rests on this test. It does not count against you.</p>
        <RadioRow
          legend="In what you tested"
          value={form.interest}
          choices={INTERESTS}
          onChange={(next) => onChange({ interest: next })}
        />
      </FoldOf>
      <TextField
        label="Note"
        isOptional
        hint="Shown to nobody but you"
        value={form.note}
        {...remarksAt('/note')}
        onChange={(note) => onChange({ note })}
      />
    </section>
  )
}
