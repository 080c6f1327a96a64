import type { Schemas } from '../api/client.ts'
import { RUN_SPECS } from '../pages/submit/run-fields.ts'
import { useReading } from '../settings.ts'
import { counted } from '../units.ts'
import { Effect } from './effect.tsx'
import { resultText } from './result-text.ts'
import { SetupLink } from './setup-link.tsx'

type Full = Schemas['FullSubmission']

/** What has just arrived: what each run came to, what to heed, and where it counts. */
export function Arrived({ submission }: { readonly submission: Full }) {
  const { entries, cautions, site } = submission
  const runs = entries.reduce((sum, entry) => sum + entry.runs.length, 0)
  return (
    <div class="notice arrived" data-testid="arrived">
      <p>
        <strong>
          Your test at {site.name} has arrived: {counted(runs, 'run')}.
        </strong>{' '}
        It counts from now on. <a href="/mine">My tests</a>
      </p>
      {entries.map((entry) => (
        <EntryResults key={entry.setupId} entry={entry} />
      ))}
      <Counts submission={submission} />
      {cautions.length > 0 && (
        <ul>
          {cautions.map((caution) => (
            <li key={caution}>{caution}</li>
          ))}
        </ul>
      )}
    </div>
  )
}

function EntryResults({ entry }: { readonly entry: Full['entries'][number] }) {
  const reading = useReading()
  return (
    <>
      <p>
        <SetupLink id={entry.setupId} fallback="Your setup" />
      </p>
      <ul>
        {entry.runs.map((run, index) => (
          <li key={`${run.kind} ${index}`}>
            {RUN_SPECS[run.kind].label}: {resultText(run.normalized, reading)}
          </li>
        ))}
      </ul>
    </>
  )
}

/** Those of the results that setups are compared by, the most asked for first. */
const COMPARED = ['climbRate', 'fuelFlow', 'staticThrust', 'soundLevel'] as const

/** What it did to the comparison; one setup alone says little. */
function Counts({ submission: { entries } }: { readonly submission: Full }) {
  const ids = entries.map(({ setupId }) => setupId)
  const measured = new Set(entries.flatMap(({ runs }) => runs.map((run) => run.normalized.metric)))
  const metric = COMPARED.find((name) => measured.has(name))
  if (ids.length >= 2 && metric !== undefined) return <Effect {...{ ids, metric }} />
  return (
    <p>
      Another setup in the same session would compare them best.{' '}
      <a href={`/setups/${ids[0]}`}>What is known of this setup</a>
    </p>
  )
}
