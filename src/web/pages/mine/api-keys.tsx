import { useState } from 'preact/hooks'

import { post, remove } from '../../api/client.ts'
import { useAnswer } from '../../api/use-answer.ts'
import { TextField } from '../../components/fields.tsx'
import { AnswerState, Failure } from '../../components/notices.tsx'
import { SureButton } from '../../components/sure-button.tsx'

/** Keys for scripts. A key is shown once, when it is made. */
export function ApiKeys() {
  const asked = useAnswer('/v1/api-keys', { asMe: true, query: { limit: 100 } })
  const [name, setName] = useState('')
  const [made, setMade] = useState<string | null>(null)
  const [error, setError] = useState<Error | null>(null)
  const run = (work: Promise<unknown>) => {
    setError(null)
    return work.then(asked.retry).catch(setError)
  }
  const create = () =>
    run(
      post('/v1/api-keys', { name: name.trim() }).then(({ key }) => {
        setMade(key)
        setName('')
      }),
    )
  return (
    <section>
      <h2>Keys for scripts</h2>
      <p>
        A key lets a script of yours do what you may, through the{' '}
        <a href="/docs">interface for programs</a>. Revoke one that others may have seen.
      </p>
      <AnswerState asked={asked} />
      <ul class="list">
        {(asked.got?.body.items ?? []).map((key) => (
          <li key={key.id} class="row">
            <span>
              {key.name} (<code>{key.prefix}…</code>)
            </span>
            <SureButton
              label="Revoke"
              yes="Yes, revoke it"
              about="What uses it stops at once."
              onSure={() => void run(remove('/v1/api-keys/{id}', { path: { id: key.id } }))}
            />
          </li>
        ))}
      </ul>
      {made !== null && (
        <p class="notice" role="status">
          Copy it now, it is shown only once: <code class="secret">{made}</code>
        </p>
      )}
      {error !== null && <Failure error={error} />}
      <form
        class="narrow"
        onSubmit={(event) => {
          event.preventDefault()
          void create()
        }}
      >
        <TextField label="What is the key for?" value={name} onChange={setName} />
        <button type="submit" disabled={name.trim() === ''}>
          Make a key
        </button>
      </form>
    </section>
  )
}
