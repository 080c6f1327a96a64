import { useEffect, useMemo, useState } from 'preact/hooks'

import type { Problem } from '../../api/client.ts'
import { useSession } from '../../api/session.ts'
import { Loading } from '../../components/notices.tsx'
import { OutboxList } from '../../components/outbox-list.tsx'
import { remember } from '../../store/device.ts'
import { takeSetupsAlong } from '../../store/known-setups.ts'
import { enqueue, sendWaiting } from '../../store/outbox.ts'
import { bodyOf } from './body.ts'
import { EntryCard } from './entry-card.tsx'
import { blankEntry, type EntryForm, type Form, lastSessionOf } from './form.ts'
import { workOut } from './live.ts'
import { remarksFrom } from './remarks.ts'
import { InterestAndNote, PilotAndWing, PlaceAndAir } from './session-fields.tsx'
import { type Draft, LAST_SESSION, useDraft } from './use-draft.ts'

/** The field form: works without a network, kept on the device, worked out while it is typed. */
export function SubmitPage() {
  const draft = useDraft()
  useEffect(() => {
    takeSetupsAlong().catch(() => {}) // without a network those of last time serve
  }, [])
  return (
    <>
      <h1>{draft.form?.revises == null ? 'Submit a test' : 'Correct a test'}</h1>
      <p>
        Everything is kept on this device as you type, also without a network. Differences show best
        when you fly two setups in one session, in turn.
      </p>
      <OutboxList />
      {draft.form === null ? (
        <Loading what="Opening your draft" />
      ) : (
        <Sheet draft={draft} form={draft.form} />
      )}
    </>
  )
}

function Sheet({ draft, form }: { readonly draft: Draft; readonly form: Form }) {
  const [isSending, setSending] = useState(false)
  const [problem, setProblem] = useState<Problem | null>(null)
  const live = useMemo(() => workOut(form), [form])
  const remarksAt = remarksFrom(live, isSending, problem?.errors ?? [])
  const change = (part: Partial<Form>) => {
    setProblem(null)
    draft.change(part)
  }
  const shared = { form, remarksAt, onChange: change }
  return (
    <form
      class="sheet"
      noValidate
      onSubmit={(event) => {
        event.preventDefault()
        setSending(true)
      }}
    >
      <Entries {...shared} live={live} draft={draft} />
      <PlaceAndAir {...shared} />
      <PilotAndWing {...shared} />
      <InterestAndNote {...shared} />
      <Send draft={draft} form={form} live={live} onTry={() => setSending(true)} />
    </form>
  )
}

interface EntriesProps {
  readonly form: Form
  readonly draft: Draft
  readonly live: ReturnType<typeof workOut>
  readonly remarksAt: ReturnType<typeof remarksFrom>
  readonly onChange: (part: Partial<Form>) => void
}

function Entries({ form, draft, live, remarksAt, onChange }: EntriesProps) {
  const replace = (at: number, ...entries: readonly EntryForm[]) =>
    onChange({ entries: form.entries.toSpliced(at, 1, ...entries) })
  const taken = form.entries.flatMap(({ setup }) => (setup === null ? [] : [setup.id]))
  return (
    <>
      {form.entries.map((entry, index) => (
        <EntryCard
          key={entry.key}
          entry={entry}
          index={index}
          live={live}
          remarksAt={remarksAt}
          taken={taken}
          heightSource={draft.last?.heightSource}
          onChange={(next) => replace(index, next)}
          onRemove={() => replace(index)}
        />
      ))}
      <button
        type="button"
        onClick={() =>
          onChange({ entries: [...form.entries, blankEntry(draft.last, form.entries.at(-1))] })
        }
      >
        Another setup in the same session
      </button>
    </>
  )
}

interface SendProps {
  readonly draft: Draft
  readonly form: Form
  readonly live: ReturnType<typeof workOut>
  readonly onTry: () => void
}

function Send({ draft, form, live, onTry }: SendProps) {
  const session = useSession()
  const [said, setSaid] = useState('')
  const send = async () => {
    onTry()
    const lacking = live.needed.length
    if (lacking > 0 || live.faults.size > 0) {
      setSaid(
        lacking > 0
          ? `Not sent: ${lacking} field${lacking === 1 ? ' is' : 's are'} still needed. They are marked above.`
          : 'Not sent: a value cannot be right. It is marked above.',
      )
      return
    }
    await enqueue(bodyOf(form).body, form.revises)
    remember(LAST_SESSION, lastSessionOf(form))
    draft.begin()
    scrollTo(0, 0)
    await sendWaiting()
  }
  return (
    <section class="send">
      <button type="button" class="primary big" onClick={() => void send()}>
        Send
      </button>
      <p role="status">{said}</p>
      <p class="hint">
        {draft.isKept ? 'Kept on this device.' : 'Being kept…'}{' '}
        {session === null && (
          <>
            To send it you need to <a href="/sign-in?next=/submit">sign in</a>; until then it waits
            here.
          </>
        )}
      </p>
      <button type="button" class="quiet" onClick={draft.begin}>
        Throw this draft away
      </button>
    </section>
  )
}
