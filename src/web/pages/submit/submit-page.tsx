import { useEffect, useMemo, useState } from 'preact/hooks'

import { Loading } from '../../components/notices.tsx'
import { OutboxList } from '../../components/outbox-list.tsx'
import { takeSetupsAlong } from '../../store/known-setups.ts'
import { lastSession } from '../../store/last-session.ts'
import { changeDraft, openDraft, useDraft } from './draft.ts'
import { EntryCard } from './entry-card.tsx'
import { blankEntry, type EntryForm, type Form } from './form.ts'
import { InterestAndNote } from './interest-and-note.tsx'
import { type Live, workOut } from './live.ts'
import { PilotAndWing } from './pilot-and-wing.tsx'
import { PlaceAndAir } from './place-and-air.tsx'
import { type RemarksAt, remarksFrom } from './remarks.ts'
import { Send } from './send.tsx'
import { Shelf } from './shelf.tsx'

/** The field form: works without a network, kept on the device, worked out while it is typed. */
export function SubmitPage() {
  const draft = useDraft()
  useEffect(() => {
    void openDraft()
    takeSetupsAlong().catch(() => {}) // without a network those of last time serve
  }, [])
  return (
    <>
      <h1>{draft?.form.revises == null ? 'Submit a test' : 'Correct a test'}</h1>
      <p>
        Everything is kept on this device as you type, also without a network. Differences show best
        when you fly two setups in one session, in turn.
      </p>
      <OutboxList />
      <Shelf />
      {draft === null ? (
        <Loading what="Opening your draft" />
      ) : (
        <Sheet key={draft.form.key} form={draft.form} isKept={draft.isKept} />
      )}
    </>
  )
}

function Sheet({ form, isKept }: { readonly form: Form; readonly isKept: boolean | null }) {
  const [isSending, setSending] = useState(false)
  const live = useMemo(() => workOut(form), [form])
  const { refused = [] } = form
  const remarksAt = remarksFrom(live, isSending, refused)
  const shared = { form, remarksAt, onChange: changeDraft }
  return (
    <form class="sheet" noValidate onSubmit={(event) => event.preventDefault()}>
      <Refused refused={refused} />
      <Entries {...shared} live={live} />
      <PlaceAndAir {...shared} />
      <PilotAndWing {...shared} />
      <InterestAndNote {...shared} />
      <Send form={form} isKept={isKept} live={live} onTry={() => setSending(true)} />
    </form>
  )
}

/** All of what the service said, also of what has no field of its own. */
function Refused({ refused }: { readonly refused: NonNullable<Form['refused']> }) {
  if (refused.length === 0) return null
  return (
    <div class="notice notice-fault" role="alert">
      <p>It was refused when it was sent. Mend what is marked, then send it again.</p>
      <ul>
        {refused.map(({ pointer, detail }) => (
          <li key={pointer + detail}>{detail}</li>
        ))}
      </ul>
    </div>
  )
}

interface EntriesProps {
  readonly form: Form
  readonly live: Live
  readonly remarksAt: RemarksAt
  readonly onChange: (part: Partial<Form>) => void
}

function Entries({ form, live, remarksAt, onChange }: EntriesProps) {
  const last = lastSession()
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
          heightSource={last?.heightSource}
          onChange={(next) => replace(index, next)}
          onRemove={() => replace(index)}
        />
      ))}
      {(remarksAt('/entries').faults ?? []).map((fault) => (
        <p class="fault" key={fault}>
          {fault}
        </p>
      ))}
      <button
        type="button"
        onClick={() =>
          onChange({ entries: [...form.entries, blankEntry(last, form.entries.at(-1))] })
        }
      >
        Another setup in the same session
      </button>
    </>
  )
}
