import { useState } from 'preact/hooks'

import { useAnswer } from '../api/use-answer.ts'
import { TextField } from '../components/fields.tsx'
import { AnswerState } from '../components/notices.tsx'
import { SetupName } from '../components/setup-name.tsx'
import { counted } from '../units.ts'

const SHOWN = 100

/** The catalogue: every setup that was ever entered, found by words. */
export function SetupsPage() {
  const [words, setWords] = useState('')
  const q = words.trim()
  const asked = useAnswer('/v1/setups', { query: { limit: SHOWN, ...(q === '' ? {} : { q }) } })
  const items = asked.got?.body.items ?? []
  return (
    <>
      <h1>Setups</h1>
      <p>An engine, a propeller and a frame, flown together. Slips of the pen are forgiven.</p>
      <div class="narrow">
        <TextField label="Search" type="search" value={words} onChange={setWords} />
      </div>
      <AnswerState asked={asked} />
      <ul class="list">
        {items.map(({ id, name, safety }) => (
          <li key={id}>
            <SetupName setup={{ setupId: id, name, safety }} />
          </li>
        ))}
      </ul>
      <p role="status" class={items.length === 0 ? '' : 'visually-hidden'}>
        {asked.got !== null && foundText(items.length, q)}
      </p>
      {items.length === 0 && asked.got !== null && q === '' && (
        <p>
          <a href="/submit">Submit a test</a>: the setup you flew is entered with it.
        </p>
      )}
      {asked.got?.body.nextCursor != null && (
        <p class="hint">These are the first {SHOWN}. A word of the name finds the others.</p>
      )}
    </>
  )
}

function foundText(count: number, words: string): string {
  if (count === 0) return words === '' ? 'No setup was entered yet.' : 'Nothing by that name.'
  return `${counted(count, 'setup')} listed`
}
