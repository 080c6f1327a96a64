import { useState } from 'preact/hooks'

import { post } from '../api/client.ts'
import { useSession } from '../api/session.ts'
import { randomKey } from '../store/random-key.ts'
import { RadioRow, TextField } from './fields.tsx'
import { Failure } from './notices.tsx'

interface Props {
  readonly about: { readonly setupId: string } | { readonly componentId: string }
}

/** Something is wrong or unsafe: anybody with an account can say so. */
export function ReportForm({ about }: Props) {
  const session = useSession()
  const [kind, setKind] = useState<'unsafe' | 'wrong'>('unsafe')
  const [text, setText] = useState('')
  const [state, setState] = useState<'open' | 'sent' | Error>('open')
  const send = () =>
    post('/v1/reports', { kind, ...about, text: text.trim() }, { idempotencyKey: randomKey() })
      .then(() => setState('sent'))
      .catch((error: unknown) => setState(error as Error))
  return (
    <section class="no-print">
      <h2>Is something wrong or unsafe?</h2>
      {session === null && (
        <p>
          <a href={`/sign-in?next=${location.pathname}`}>Sign in</a> to report it. A setup reported
          unsafe shows it at once.
        </p>
      )}
      {session !== null && state === 'sent' && (
        <p role="status">Thank you. It will be looked into; the state above says what holds now.</p>
      )}
      {session !== null && state !== 'sent' && (
        <form
          class="narrow"
          onSubmit={(event) => {
            event.preventDefault()
            void send()
          }}
        >
          <RadioRow
            legend="It is"
            value={kind}
            choices={[
              ['unsafe', 'Unsafe: somebody may get hurt'],
              ['wrong', 'Wrong: something here is not true'],
            ]}
            onChange={setKind}
          />
          <TextField
            label="What did you see?"
            hint="Read by moderators"
            value={text}
            onChange={setText}
          />
          {state instanceof Error && <Failure error={state} />}
          <button type="submit" disabled={text.trim() === ''}>
            Report it
          </button>
        </form>
      )}
    </section>
  )
}
