import { useState } from 'preact/hooks'

import type { Schemas } from '../../../api/client.ts'
import { useSession } from '../../../api/session.ts'
import { Failure } from '../../../components/notices.tsx'
import { useOnline } from '../../../components/use-online.ts'
import { addSetup, type Hurdle } from './add-setup.ts'
import { PartFields } from './part-fields.tsx'
import { EMPTY_PART, lackingIn, PART_KINDS, type PartForm, type PartKind } from './part-form.ts'

type Setup = Schemas['Setup']
type Parts = Readonly<Record<PartKind, PartForm>>

const EMPTY: Parts = { powerplant: EMPTY_PART, propeller: EMPTY_PART, frame: EMPTY_PART }

interface Props {
  readonly onReady: (setup: Setup) => void
}

/** Adds a setup that nobody has entered yet, without leaving the form. Needs the network. */
export function NewSetup({ onReady }: Props) {
  const [isOpen, setOpen] = useState(false)
  // Kept here, so that a network that goes away for a while takes nothing of it along.
  const [parts, setParts] = useState(EMPTY)
  return (
    <details onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>It is not in the list</summary>
      {isOpen && <Gate onReady={onReady} parts={parts} setParts={setParts} />}
    </details>
  )
}

interface FormProps extends Props {
  readonly parts: Parts
  readonly setParts: (update: (before: Parts) => Parts) => void
}

function Gate(props: FormProps) {
  const session = useSession()
  const isOnline = useOnline()
  if (!isOnline) {
    return (
      <p class="notice">
        A new setup can be added only with a network. Everything else of this test is kept: add the
        setup later, before you send it.
      </p>
    )
  }
  if (session === null) {
    return (
      <p class="notice">
        <a href="/sign-in?next=/submit">Sign in</a> to add one; what you typed so far is kept.
      </p>
    )
  }
  return <PartsForm {...props} />
}

function PartsForm({ onReady, parts, setParts }: FormProps) {
  const [isTried, setTried] = useState(false)
  const [isBusy, setBusy] = useState(false)
  const [hurdle, setHurdle] = useState<Hurdle | null>(null)
  const change = (kind: PartKind, part: PartForm) => {
    setHurdle(null)
    setParts((before) => ({ ...before, [kind]: part }))
  }
  const add = async () => {
    setTried(true)
    if (PART_KINDS.some((kind) => lackingIn(kind, parts[kind]).length > 0)) return
    setBusy(true)
    const outcome = await addSetup(parts, (kind, id) =>
      setParts((before) => ({ ...before, [kind]: { ...before[kind], id } })),
    )
    setBusy(false)
    if ('setup' in outcome) onReady(outcome.setup)
    else setHurdle(outcome)
  }
  return (
    <section aria-label="New setup" class="new-setup">
      {PART_KINDS.map((kind) => (
        <PartFields
          key={kind}
          kind={kind}
          part={parts[kind]}
          lacking={isTried ? lackingIn(kind, parts[kind]) : []}
          known={hurdle?.at === kind ? hurdle.known : null}
          refused={hurdle?.at === kind ? hurdle.errors : []}
          onChange={(part) => change(kind, part)}
        />
      ))}
      {hurdle?.at === 'setup' && (
        <div class="notice" role="alert">
          <p>This combination is in the catalogue already.</p>
          <button type="button" onClick={() => onReady(hurdle.known)}>
            Take {hurdle.known.name}
          </button>
        </div>
      )}
      {hurdle?.error != null && <Failure error={hurdle.error} />}
      <button type="button" disabled={isBusy} onClick={() => void add()}>
        Add this setup and take it
      </button>
    </section>
  )
}
