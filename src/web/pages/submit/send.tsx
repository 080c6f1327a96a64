import { useEffect, useState } from 'preact/hooks'

import { Refusal } from '../../api/client.ts'
import { useSession } from '../../api/session.ts'
import { SureButton } from '../../components/sure-button.tsx'
import { NO_ROOM } from '../../store/database.ts'
import { rememberSession } from '../../store/last-session.ts'
import { type Body, enqueue, sendUnkept, sendWaiting } from '../../store/outbox.ts'
import { bodyOf } from './body.ts'
import {
  beginDraft,
  changeDraft,
  holdDraft,
  renamed,
  resumeDraft,
  takeAsDraft,
  throwDraftAway,
  WITHOUT_DRAFT,
} from './draft.ts'
import { type Form, lastSessionOf } from './form.ts'
import type { Live } from './live.ts'

interface Props {
  readonly form: Form
  readonly isKept: boolean | null
  readonly live: Live
  readonly onTry: () => void
}

const NOT_KEPT = `${NO_ROOM} Free some space, or send it before you close this page.`
const STILL_HERE = 'What you typed is still in the form: leave this page open.'

/** The end of the form: off it goes, or it says why not. */
export function Send({ form, isKept, live, onTry }: Props) {
  const session = useSession()
  const [said, setSaid] = useState('')
  useAskBeforeLeaving(isKept === false)
  const send = async () => {
    onTry()
    const reason = whyNot(live)
    setSaid(reason)
    if (reason !== '') return showFirstFault()
    const { body } = bodyOf(form)
    holdDraft()
    try {
      await enqueue(form, body, [WITHOUT_DRAFT])
    } catch {
      const failure = session === null ? 'You are not signed in.' : await sendFromHere(form, body)
      if (failure !== null) {
        resumeDraft()
        return setSaid(`Not sent. ${NO_ROOM} ${failure} ${STILL_HERE}`)
      }
    }
    rememberSession(lastSessionOf(form))
    beginDraft()
    scrollTo(0, 0)
    await sendWaiting().catch(() => {}) // it waits in the outbox and is tried again
  }
  return (
    <section class="send">
      <button type="button" class="primary big" onClick={() => void send()}>
        Send
      </button>
      <p role="status" class={said === '' ? '' : 'fault'}>
        {said}
      </p>
      <p class={isKept === false ? 'fault' : 'hint'}>
        {isKept === null ? 'Being kept…' : isKept ? 'Kept on this device.' : NOT_KEPT}{' '}
        {session === null && (
          <>
            To send it you need to <a href="/sign-in?next=/submit">sign in</a>; until then it waits
            here.
          </>
        )}
      </p>
      <div class="row">
        <button
          type="button"
          class="quiet"
          onClick={() => void takeAsDraft(null).catch(() => setSaid(NOT_KEPT))}
        >
          Set it aside and begin another
        </button>
        <SureButton
          isQuiet
          label="Throw this draft away"
          yes="Yes, throw it away"
          onSure={() => void throwDraftAway()}
        />
      </div>
    </section>
  )
}

/** Without room to keep it there is still the network; null when it has arrived, otherwise why not. */
async function sendFromHere(form: Form, body: Body): Promise<string | null> {
  try {
    await sendUnkept(form, body)
    await throwDraftAway()
    return null
  } catch (error) {
    if (!(error instanceof Refusal)) return 'The service cannot be reached either.'
    const { errors = [] } = error.problem
    changeDraft(
      renamed(form, errors.length > 0 ? errors : [{ pointer: '', detail: error.message }]),
    )
    return 'The service refused it: what it said is marked.'
  }
}

/** What is only in this tab is not closed away by a slip. */
function useAskBeforeLeaving(isNeeded: boolean): void {
  useEffect(() => {
    if (!isNeeded) return
    const ask = (event: BeforeUnloadEvent) => event.preventDefault()
    addEventListener('beforeunload', ask)
    return () => removeEventListener('beforeunload', ask)
  }, [isNeeded])
}

function whyNot({ needed, faults }: Live): string {
  const count = needed.length
  if (count > 0) {
    return `Not sent: ${count} field${count === 1 ? ' is' : 's are'} still needed. They are marked above.`
  }
  return faults.size > 0 ? 'Not sent: a value cannot be right. It is marked above.' : ''
}

/** Once the faults are drawn: to the first of them, so that nobody has to look for it. */
function showFirstFault(): void {
  setTimeout(() => {
    const field = document.querySelector('.sheet .fault')?.closest('.field') ?? null
    const first = field?.querySelector<HTMLElement>('input, select')
    first?.focus()
  })
}
