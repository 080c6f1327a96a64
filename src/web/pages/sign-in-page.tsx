import { useState } from 'preact/hooks'

import { post, Refusal } from '../api/client.ts'
import { signIn, signOut, useSession } from '../api/session.ts'
import { RadioRow, TextField } from '../components/fields.tsx'
import { Failure } from '../components/notices.tsx'
import { go, usePlace } from '../router.ts'

type Kind = 'in' | 'up'

/** Where to go on to after signing in: a page of ours, or the own tests. */
function nextPage(query: string): string {
  const wanted = new URLSearchParams(query).get('next') ?? ''
  return /^\/[\w/-]*$/.test(wanted) && !wanted.startsWith('//') ? wanted : '/mine'
}

/** An account is needed to write only. */
export function SignInPage() {
  const session = useSession()
  const { query } = usePlace()
  const [kind, setKind] = useState<Kind>('in')
  if (session !== null) return <SignedIn email={session.email} />
  return (
    <>
      <h1>{kind === 'in' ? 'Sign in' : 'Open an account'}</h1>
      <p>Reading needs no account. Submitting does, so that you can correct what you sent.</p>
      <RadioRow
        legend="Do you have an account?"
        value={kind}
        choices={[
          ['in', 'Yes'],
          ['up', 'No, open one'],
        ]}
        onChange={setKind}
      />
      <SignForm key={kind} kind={kind} next={nextPage(query)} />
    </>
  )
}

function SignForm({ kind, next }: { readonly kind: Kind; readonly next: string }) {
  const [email, setEmail] = useState('')
  const [password, setPassword] = useState('')
  const [displayName, setDisplayName] = useState('')
  const [error, setError] = useState<Error | null>(null)
  const [isBusy, setBusy] = useState(false)
  const faultsOf = (field: string) =>
    error instanceof Refusal
      ? (error.problem.errors ?? [])
          .filter(({ pointer }) => pointer === `/${field}`)
          .map(({ detail }) => detail)
      : []
  const submit = async () => {
    setBusy(true)
    setError(null)
    try {
      if (kind === 'up') {
        await post('/v1/accounts', { email, password, displayName }, { asAnybody: true })
      }
      await signIn(email, password)
      go(next, { replace: true })
    } catch (fault) {
      setError(fault as Error)
      setBusy(false)
    }
  }
  return (
    <form
      class="narrow"
      onSubmit={(event) => {
        event.preventDefault()
        void submit()
      }}
    >
      <TextField
        label="E-mail"
        type="email"
        autocomplete="username"
        value={email}
        onChange={setEmail}
        faults={faultsOf('email')}
      />
      {kind === 'up' && (
        <TextField
          label="Name shown beside what you write"
          autocomplete="nickname"
          value={displayName}
          onChange={setDisplayName}
          faults={faultsOf('displayName')}
        />
      )}
      <TextField
        label="Password"
        type="password"
        autocomplete={kind === 'in' ? 'current-password' : 'new-password'}
        {...(kind === 'up' ? { hint: 'At least 10 characters; a short sentence is good.' } : {})}
        value={password}
        onChange={setPassword}
        faults={faultsOf('password')}
      />
      {error !== null && <Failure error={error} />}
      <button type="submit" class="primary" disabled={isBusy}>
        {kind === 'in' ? 'Sign in' : 'Open the account'}
      </button>
    </form>
  )
}

function SignedIn({ email }: { readonly email: string }) {
  return (
    <>
      <h1>Signed in</h1>
      <p>You are signed in as {email} on this device.</p>
      <button type="button" onClick={() => void signOut()}>
        Sign out
      </button>
    </>
  )
}
