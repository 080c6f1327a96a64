import { useEffect, useState } from 'preact/hooks'

import { get, type Schemas } from '../../api/client.ts'
import { SafetyNotices } from '../../components/safety.tsx'
import { SetupSearch } from '../../components/setup-search.tsx'
import { keptSetup } from '../../store/known-setups.ts'
import type { EntryForm, KnownSetup, Safety } from './form.ts'
import { knownSetup, safetyOf } from './known-setup.ts'
import { NewSetup } from './new-setup/new-setup.tsx'

interface Props {
  readonly entry: EntryForm
  readonly faults: readonly string[]
  /** Ids of setups that stand in the form already. */
  readonly taken: readonly string[]
  readonly onChange: (setup: KnownSetup | null) => void
}

/** Which setup was flown; what speaks against flying it comes before everything else. */
export function ChosenSetup({ entry, faults, taken, onChange }: Props) {
  const choose = (setup: Schemas['Setup']) => onChange(knownSetup(setup))
  return (
    <>
      {entry.setup === null ? (
        <>
          <SetupSearch label="Which setup?" without={taken} onChoose={choose} />
          <NewSetup onReady={choose} />
        </>
      ) : (
        <>
          <p class="chosen-setup">
            <strong>{entry.setup.name}</strong>
            <button type="button" class="quiet" onClick={() => onChange(null)}>
              Choose another
            </button>
          </p>
          <SafetyNow key={entry.setup.id} setup={entry.setup} />
        </>
      )}
      {faults.map((fault) => (
        <p class="fault" key={fault}>
          {fault}
        </p>
      ))}
    </>
  )
}

function SafetyNow({ setup }: { readonly setup: KnownSetup }) {
  const safety = useSafety(setup)
  return (
    <div role="status">
      <SafetyNotices setups={[{ setupId: setup.id, name: setup.name, safety }]} />
    </div>
  )
}

/** What is known of its safety now; without a network what this device knew last. */
function useSafety({ id, safety }: KnownSetup): Safety {
  const [latest, setLatest] = useState(safety)
  useEffect(() => {
    const abort = new AbortController()
    get('/v1/setups/{id}', { path: { id }, signal: abort.signal })
      .then(({ body }) => body)
      .catch(() => keptSetup(id))
      .then(
        (found) => found !== undefined && !abort.signal.aborted && setLatest(safetyOf(found)),
        () => {}, // neither a network nor a store: what the draft holds stands
      )
    return () => abort.abort()
  }, [id])
  return latest
}
