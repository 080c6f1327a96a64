import { useState } from 'preact/hooks'

import { Failure } from '../../components/notices.tsx'
import { SureButton } from '../../components/sure-button.tsx'
import { counted } from '../../units.ts'
import { takeAsDraft, throwShelvedAway, useShelf } from './draft.ts'
import type { Form } from './form.ts'

/** Drafts that were set aside for another one. Nothing when there is none. */
export function Shelf() {
  const shelf = useShelf()
  if (shelf.length === 0) return null
  return (
    <section aria-label="Set aside">
      {shelf.map((form) => (
        <Shelved key={form.key} form={form} />
      ))}
    </section>
  )
}

function Shelved({ form }: { readonly form: Form }) {
  const [error, setError] = useState<Error | null>(null)
  return (
    <div class="notice" data-testid="shelved">
      <p>Set aside, not sent: {nameOf(form)}.</p>
      {error !== null && <Failure error={error} />}
      <div class="row">
        <button type="button" onClick={() => void takeAsDraft(form).catch(setError)}>
          Go on with it
        </button>
        <SureButton
          isQuiet
          label="Throw it away"
          yes="Yes, throw it away"
          onSure={() => void throwShelvedAway(form).catch(setError)}
        />
      </div>
    </div>
  )
}

/** Larkfield, 2026-05-10, 2 runs */
function nameOf({ siteName, flownOn, entries }: Form): string {
  const runs = entries.reduce((sum, entry) => sum + entry.runs.length, 0)
  const place = siteName.trim() === '' ? 'a field without a name' : siteName.trim()
  return `${place}, ${flownOn}, ${counted(runs, 'run')}`
}
