import { FiguresTable } from '../../components/figures-table.tsx'
import type { OtherReading } from '../../readings.ts'

interface Props {
  /** The answer itself, in the words of the other readings. */
  readonly own: string
  readonly others: readonly OtherReading[]
  readonly onAskAgain: () => void
}

/** Whether the answer would be another if fewer tests counted, beside its verdict. */
export function OtherFits({ own, others, onAskAgain }: Props) {
  if (others.length === 0) return null
  const isPending = others.some(({ isSame }) => isSame === null)
  const isParted = others.some(({ isSame }) => isSame === false)
  const all = { label: 'All tests', about: 'The answer above.', words: own, isSame: undefined }
  return (
    <section>
      <h2 id="readings">Does it hold?</h2>
      <p>
        {isPending && 'The other readings are being worked out: they follow within moments. '}
        {!isPending && !isParted && 'The answer is the same whichever tests count.'}
        {isParted && <strong>The answer hangs on which tests count: read it with care.</strong>}
      </p>
      <div class={isParted ? '' : 'no-print'}>
        <FiguresTable
          label="The verdict in other readings of the same tests"
          heads={['Reading', 'Verdict', 'Against the answer']}
          rows={[all, ...others].map(({ label, about, words, isSame }) => ({
            key: label,
            head: (
              <>
                {label} <span class="reason">{about}</span>
              </>
            ),
            cells: [words, agreement(isSame)],
          }))}
        />
      </div>
      {isPending && (
        <button type="button" class="no-print" onClick={onAskAgain}>
          Look again
        </button>
      )}
    </section>
  )
}

function agreement(isSame: boolean | null | undefined) {
  if (isSame === undefined) return '–'
  if (isSame === null) return '…'
  return isSame ? 'the same' : <strong class="stop">another one</strong>
}
