import { useState } from 'preact/hooks'

import { get, remove } from '../../api/client.ts'
import { signOut } from '../../api/session.ts'
import { TextField } from '../../components/fields.tsx'
import { Failure } from '../../components/notices.tsx'

/** Who is signed in, what is stored of them, and the way out. */
export function Account({ email }: { readonly email: string }) {
  const [error, setError] = useState<Error | null>(null)
  return (
    <section>
      <h2>Account</h2>
      <p>Signed in as {email}.</p>
      {error !== null && <Failure error={error} />}
      <div class="row">
        <button type="button" onClick={() => void signOut()}>
          Sign out
        </button>
        <button type="button" onClick={() => void download().catch(setError)}>
          Download all that is stored of you
        </button>
      </div>
      <Close email={email} />
    </section>
  )
}

/** Everything as one file of JSON. */
async function download(): Promise<void> {
  const { body } = await get('/v1/me/export', { asMe: true })
  const file = new Blob([JSON.stringify(body, null, 2)], { type: 'application/json' })
  const link = document.createElement('a')
  link.href = URL.createObjectURL(file)
  link.download = 'fairclimb-account.json'
  link.click()
  URL.revokeObjectURL(link.href)
}

/** Cannot be taken back, so it asks for the address to be typed. */
function Close({ email }: { readonly email: string }) {
  const [typed, setTyped] = useState('')
  const [error, setError] = useState<Error | null>(null)
  const close = () => remove('/v1/me').then(signOut).catch(setError)
  return (
    <details>
      <summary>Close the account</summary>
      <p>
        For good: your e-mail address and name are overwritten, sessions and keys end at once. Your
        tests stay as evidence without a name. Withdraw those first that should not count, and
        download what you want to keep.
      </p>
      <form
        class="narrow"
        onSubmit={(event) => {
          event.preventDefault()
          if (typed.trim() === email) void close()
        }}
      >
        <TextField
          label="Type your e-mail address to confirm"
          type="email"
          value={typed}
          onChange={setTyped}
        />
        {error !== null && <Failure error={error} />}
        <button type="submit" class="stop-button" disabled={typed.trim() !== email}>
          Close the account for good
        </button>
      </form>
    </details>
  )
}
