import { useState } from 'preact/hooks'

import { useSession } from '../../api/session.ts'
import { SureButton } from '../../components/sure-button.tsx'
import { enqueue, sendWaiting } from '../../store/outbox.ts'
import { bodyOf } from './body.ts'
import { beginDraft, rememberSession, takeAsDraft, throwDraftAway, WITHOUT_DRAFT } from './draft.ts'
import { type Form, lastSessionOf } from './form.ts'
import type { Live } from './live.ts'

interface Props {
  readonly form: Form
  readonly isKept: boolean | null
  readonly live: Live
  readonly onTry: () => void
}

const NO_ROOM =
  'This device has no room to keep it. Free some space, or send it before you close this page.'

/** The end of the form: off it goes, or it says why not. */
export function Send({ form, isKept, live, onTry }: Props) {
  const session = useSession()
  const [said, setSaid] = useState('')
  const send = async () => {
    onTry()
    const reason = whyNot(live)
    setSaid(reason)
    if (reason !== '') return showFirstFault()
    try {
      await enqueue(form, bodyOf(form).body, [WITHOUT_DRAFT])
    } catch {
      return setSaid(`Not sent. ${NO_ROOM} What you typed is still in the form.`)
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
        {isKept === null ? 'Being kept…' : isKept ? 'Kept on this device.' : NO_ROOM}{' '}
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
          onClick={() => void takeAsDraft(null).catch(() => setSaid(NO_ROOM))}
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
