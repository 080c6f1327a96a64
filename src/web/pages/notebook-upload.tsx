import { useState } from 'preact/hooks'

import { get, NoNetwork, Refusal, type Schemas, sendNotebook } from '../api/client.ts'
import { useSession } from '../api/session.ts'
import { FileField } from '../components/fields.tsx'
import { FiguresTable } from '../components/figures-table.tsx'
import { Failure, Progress } from '../components/notices.tsx'
import { counted } from '../units.ts'

/** How far a notebook is. */
type State =
  | { readonly at: 'nothing' }
  | { readonly at: 'underWay'; readonly share: number; readonly step: string }
  | { readonly at: 'takenIn'; readonly made: Schemas['Import'] }
  | { readonly at: 'stopped'; readonly error: Error }

const LOOK_AGAIN_MS = 1000

/** Faults that are read at once; who has mended them sends the file again. */
const SHOWN = 50

/** Takes a notebook from this device and follows it until all of it is in, or nothing. */
export function NotebookUpload() {
  const session = useSession()
  const [file, setFile] = useState<File | null>(null)
  const [state, setState] = useState<State>({ at: 'nothing' })
  if (session === null) {
    return (
      <p>
        <a href={`/sign-in?next=${location.pathname}`}>Sign in</a> to send yours.
      </p>
    )
  }
  const send = async (chosen: File) => {
    setState({ at: 'underWay', share: 0, step: 'being sent' })
    setState(
      await takeIn(chosen, setState).catch((error: Error) => ({ at: 'stopped', error }) as const),
    )
  }
  return (
    <>
      <form
        class="narrow"
        onSubmit={(event) => {
          event.preventDefault()
          if (file !== null) void send(file)
        }}
      >
        <FileField
          label="Your notebook"
          accept=".csv,text/csv"
          onChange={(chosen) => {
            setFile(chosen)
            setState({ at: 'nothing' })
          }}
        />
        <button type="submit" disabled={file === null || state.at === 'underWay'}>
          Send the notebook
        </button>
      </form>
      <div role="status">
        <Outcome state={state} />
      </div>
    </>
  )
}

/** Sends and follows it. It goes on at the service when nobody looks, also without a network here. */
async function takeIn(file: File, show: (state: State) => void): Promise<State> {
  let request = await sendNotebook(file)
  const { id } = request
  while (request.state === 'running') {
    show({ at: 'underWay', share: request.progress, step: request.step })
    await new Promise((resolve) => setTimeout(resolve, LOOK_AGAIN_MS))
    try {
      request = (await get('/v1/import-requests/{id}', { path: { id }, asMe: true })).body
    } catch (error) {
      if (!(error instanceof NoNetwork)) throw error
      show({ at: 'underWay', share: request.progress, step: 'no connection, looking again' })
    }
  }
  if (request.problem !== null) throw new Refusal(request.problem)
  if (request.import === null) throw new Refusal(failed(request.step))
  const path = { id: request.import }
  return { at: 'takenIn', made: (await get('/v1/imports/{id}', { path, asMe: true })).body }
}

/** What went wrong at the service, as it tells it where a program would wait for the answer. */
function failed(detail: string): Schemas['Problem'] {
  return { type: '', title: 'The import failed', status: 500, detail, instance: '' }
}

function Outcome({ state }: { readonly state: State }) {
  switch (state.at) {
    case 'nothing':
      return null
    case 'underWay':
      return (
        <>
          <Progress what={state.step} of={[Math.round(100 * state.share), 100]} />
          <p>It goes on when you leave this page, and then stands in My tests.</p>
        </>
      )
    case 'takenIn':
      return <TakenIn made={state.made} />
    case 'stopped':
      return <Stopped error={state.error} />
  }
}

function TakenIn({ made }: { readonly made: Schemas['Import'] }) {
  const { rows, sessions, sessionsKnown, warnings, cautions } = made
  return (
    <div class="notice">
      <p>
        <strong>
          {sessions === 0
            ? 'All of it was here already.'
            : `Taken in: ${counted(sessions, 'session')}, from ${counted(rows, 'run')} in the file.`}
        </strong>{' '}
        {sessions > 0 &&
          sessionsKnown > 0 &&
          `${counted(sessionsKnown, 'session')} of it stood here before. `}
        <a href="/mine">My tests</a>
      </p>
      {cautions.length > 0 && (
        <ul>
          {cautions.map((caution) => (
            <li key={caution}>{caution}</li>
          ))}
        </ul>
      )}
      {warnings.length > 0 && (
        <details>
          <summary>What is unusual or was assumed ({warnings.length})</summary>
          <Places label="What is unusual or was assumed" places={warnings} />
        </details>
      )}
    </div>
  )
}

/** A refused file with its faults by row and column; anything else as any failure. */
function Stopped({ error }: { readonly error: Error }) {
  if (error instanceof NoNetwork) {
    return (
      <div class="notice notice-fault" role="alert">
        <p>There is no connection to the service. Send it again when there is: it counts once.</p>
      </div>
    )
  }
  const faults = error instanceof Refusal ? (error.problem.errors ?? []) : []
  if (!faults.some(({ row }) => row !== undefined)) return <Failure error={error} />
  return (
    <div class="notice notice-fault" role="alert">
      <p>{error.message}</p>
      <Places label="What is wrong in the file" places={faults} />
    </div>
  )
}

interface Place {
  readonly row?: number | undefined
  readonly column?: string | undefined
  readonly detail: string
}

function Places({ label, places }: { readonly label: string; readonly places: readonly Place[] }) {
  return (
    <>
      <FiguresTable
        label={label}
        heads={['Place', 'Column', 'What']}
        rows={places.slice(0, SHOWN).map(({ row, column, detail }) => ({
          key: `${row} ${column} ${detail}`,
          head: row === undefined ? 'The file' : `Row ${row}`,
          cells: [column ?? '–', detail],
        }))}
      />
      {places.length > SHOWN && <p>And {places.length - SHOWN} more.</p>}
    </>
  )
}
