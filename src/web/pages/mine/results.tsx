import type { Schemas } from '../../api/client.ts'
import { resultText } from '../../components/result-text.ts'
import { SetupLink } from '../../components/setup-link.tsx'
import { useReading } from '../../settings.ts'
import { RUN_SPECS } from '../submit/run-fields.ts'

type Full = Schemas['FullSubmission']

/** What each run came to, with what makes most of its doubt; ± holds 95 %. */
export function Results({ test }: { readonly test: Full }) {
  const reading = useReading()
  return (
    <>
      {test.entries.map((entry, at) => (
        <div key={entry.setupId}>
          <h3>
            <SetupLink id={entry.setupId} fallback={`Setup ${at + 1}`} />
          </h3>
          <ul class="list">
            {entry.runs.map(({ kind, normalized }, index) => (
              <li key={`${kind} ${index}`}>
                {RUN_SPECS[kind].label}: <strong>{resultText(normalized, reading)}</strong>
                {normalized.budget[0] !== undefined && (
                  <small class="reason">Mostly because of: {normalized.budget[0].source}</small>
                )}
              </li>
            ))}
          </ul>
        </div>
      ))}
      <p class="hint">At 120 kg, sea level and 15 °C. ± holds 95 %.</p>
    </>
  )
}

export function Doubts({ test }: { readonly test: Full }) {
  const all = [...test.warnings, ...test.entries.flatMap(({ runs }) => runs.flatMap(warningsOf))]
  const sentences = [...new Set(all.map(({ detail }) => detail))]
  if (sentences.length === 0) return null
  return (
    <details>
      <summary>What is unusual or was assumed ({sentences.length})</summary>
      <ul>
        {sentences.map((sentence) => (
          <li key={sentence}>{sentence}</li>
        ))}
      </ul>
    </details>
  )
}

function warningsOf({ warnings }: Full['entries'][number]['runs'][number]) {
  return warnings
}
