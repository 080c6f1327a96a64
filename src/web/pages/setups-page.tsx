import { useState } from 'preact/hooks'

import { useAnswer } from '../api/use-answer.ts'
import { TextField } from '../components/fields.tsx'
import { AnswerState } from '../components/notices.tsx'
import { SetupName } from '../components/setup-name.tsx'

/** The catalogue: every setup that was ever entered, found by words. */
export function SetupsPage() {
  const [words, setWords] = useState('')
  const q = words.trim()
  const asked = useAnswer('/v1/setups', { query: { limit: 100, ...(q === '' ? {} : { q }) } })
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
      {asked.got !== null && items.length === 0 && <p>Nothing by that name.</p>}
    </>
  )
}
