import { useEffect, useId, useState } from 'preact/hooks'

import { NoNetwork, type Schemas } from '../api/client.ts'
import { useAnswer } from '../api/use-answer.ts'
import { searchKept } from '../store/known-setups.ts'
import { counted } from '../units.ts'
import { AnswerState } from './notices.tsx'

type Setup = Schemas['Setup']

interface Props {
  readonly label: string
  readonly onChoose: (setup: Setup) => void
  /** Those chosen already, which are not offered again. */
  readonly without?: readonly string[]
}

const PATIENCE_MS = 180
const SHOWN = 8

/** Finds a setup by words of its makers and models, slips forgiven. */
export function SetupSearch({ label, onChoose, without = [] }: Props) {
  const id = useId()
  const [words, setWords] = useState('')
  const [isOpen, setOpen] = useState(false)
  const wanted = useSettled(words.trim(), PATIENCE_MS)
  const query = { limit: SHOWN + without.length, ...(wanted === '' ? {} : { q: wanted }) }
  const asked = useAnswer('/v1/setups', isOpen ? { query } : null)
  const kept = useKept(wanted, isOpen && asked.error instanceof NoNetwork)
  const isFound = asked.got !== null || kept !== null
  const found = (asked.got?.body.items ?? kept ?? []).filter(
    ({ id: one }) => !without.includes(one),
  )
  const choose = (setup: Setup) => {
    setWords('')
    setOpen(false)
    onChoose(setup)
  }
  return (
    <div class="search">
      <label for={id}>{label}</label>
      <input
        id={id}
        type="search"
        autocomplete="off"
        value={words}
        placeholder="Engine, propeller or frame"
        onFocus={() => setOpen(true)}
        onInput={(event) => {
          setOpen(true)
          setWords(event.currentTarget.value)
        }}
      />
      <p class="visually-hidden" role="status">
        {isOpen && isFound && !asked.isLoading && countText(Math.min(SHOWN, found.length))}
      </p>
      {isOpen && (
        <div class="results">
          {!isFound && <AnswerState asked={asked} />}
          {kept !== null && <p class="hint">No network: setups kept on this device.</p>}
          {isFound && found.length === 0 && !asked.isLoading && (
            <p class="hint">Nothing by that name.</p>
          )}
          <ul aria-label="Setups found">
            {found.slice(0, SHOWN).map((setup) => (
              <li key={setup.id}>
                <button type="button" onClick={() => choose(setup)}>
                  {setup.name}
                  {setup.safety.state === 'doNotFly' && <strong class="stop"> Do not fly</strong>}
                </button>
              </li>
            ))}
          </ul>
          <button type="button" class="quiet" onClick={() => setOpen(false)}>
            Close the list
          </button>
        </div>
      )}
    </div>
  )
}

/** For those who do not see the list come. */
function countText(count: number): string {
  if (count === 0) return 'No setup found'
  return `${counted(count, 'setup')} found, listed below`
}

/** Setups kept on this device that hold the words; null while they are not asked for. */
function useKept(words: string, isWanted: boolean): Setup[] | null {
  const [kept, setKept] = useState<Setup[] | null>(null)
  useEffect(() => {
    if (isWanted) searchKept(words).then(setKept, () => setKept([]))
    else setKept(null)
  }, [words, isWanted])
  return kept
}

/** A value once it has not changed for a while. */
function useSettled(value: string, patienceMs: number): string {
  const [settled, setSettled] = useState(value)
  useEffect(() => {
    const timer = setTimeout(() => setSettled(value), patienceMs)
    return () => clearTimeout(timer)
  }, [value, patienceMs])
  return settled
}
