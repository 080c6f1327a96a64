import type { Schemas } from '../../api/client.ts'
import { FiguresTable } from '../../components/figures-table.tsx'
import { SetupName } from '../../components/setup-name.tsx'
import { besideText } from '../../readings.ts'
import { verdictsBeside } from './stands.ts'

type Pair = Schemas['ComparedPair']

const EVIDENCE_WORDS: Readonly<Record<Pair['evidence'], string>> = {
  direct: 'flown in the same sessions',
  connected: 'linked through setups flown with both',
  additive: 'linked through shared parts only',
  betweenSessions: 'compared across different days only',
  none: 'not linked',
}

interface Props {
  readonly pairs: readonly Pair[]
  readonly againstId: string
  readonly setups: readonly Schemas['ComparedSetup'][]
}

/** The table twin of the differences: each pair in the words of the service, and what it rests on. */
export function PairTable({ pairs, againstId, setups }: Props) {
  const rows = setups.flatMap((setup) => {
    const pair = pairs.find(
      ({ a, b }) =>
        (a === setup.setupId && b === againstId) || (b === setup.setupId && a === againstId),
    )
    if (pair === undefined) return []
    const cells = [
      pair.sentence,
      EVIDENCE_WORDS[pair.evidence],
      doubtsOf(pair),
      besideText(verdictsBeside(pair)),
    ]
    return [{ key: setup.setupId, head: <SetupName setup={setup} />, cells }]
  })
  return (
    <details class="twin wordy no-print">
      <summary>The same as a table, with what each rests on</summary>
      <FiguresTable
        label="Differences in words"
        heads={['Setup', 'Finding', 'Link', 'Largest doubts', 'In the other readings']}
        rows={rows}
      />
    </details>
  )
}

function doubtsOf({ uncertainty = [] }: Pair): string {
  const largest = uncertainty
    .slice(0, 2)
    .map(({ cause, share }) => `${cause} ${Math.round(100 * share)} %`)
  return largest.join(', ') || '–'
}
