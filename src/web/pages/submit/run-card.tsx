import { useState } from 'preact/hooks'

import { Doubts } from '../../components/doubts.tsx'
import { SureButton } from '../../components/sure-button.tsx'
import { NOTHING_ENTERED } from '../../units.ts'
import type { KnownSetup, RunForm } from './form.ts'
import { Lacking } from './lacking.tsx'
import type { Live } from './live.ts'
import type { RemarksAt } from './remarks.ts'
import { askedOf, doubtAt } from './run-body.ts'
import { RUN_SPECS } from './run-fields.ts'
import { Legs, Readings } from './run-parts.tsx'
import { RunResult } from './run-result.tsx'
import { Stopwatch } from './stopwatch.tsx'
import { watchOf } from './watches.ts'

export interface RunProps {
  readonly run: RunForm
  readonly drive: KnownSetup['drive'] | undefined
  /** Among the runs of its kind, from 1. */
  readonly number: number
  readonly pointer: string
  readonly live: Live
  readonly remarksAt: RemarksAt
  readonly onChange: (run: RunForm) => void
  readonly onRemove: () => void
  /** Times taken [s]: of this run, and of further ones like it. */
  readonly onTimes: (timesS: readonly number[]) => void
}

/** One run: its readings, and at once what they come to. */
export function RunCard(props: RunProps) {
  const { run, pointer, live, remarksAt, onChange } = props
  const spec = RUN_SPECS[run.kind]
  const outcome = live.outcomes.get(run.key)
  return (
    <section class="run" aria-label={`${spec.label}, run ${props.number}`}>
      <div class="run-head">
        <h3>
          {spec.label} <span class="optional">run {props.number}</span>
        </h3>
        <SureButton isQuiet label="Remove" yes="Yes, remove this run" onSure={props.onRemove} />
      </div>
      {spec.hasStopwatch && <Timing run={run} onTimes={props.onTimes} />}
      <Readings {...props} />
      {run.kind === 'levelSpeed' && <Legs run={run} onChange={onChange} />}
      <Doubts
        summary="How sure are these readings?"
        readings={askedOf(props)
          .filter(({ isExact }) => isExact !== true)
          .map(({ at, label, dimension, sign }) => ({
            at,
            label,
            ...(dimension === undefined ? {} : { dimension }),
            ...(sign === undefined ? {} : { sign }),
            reading: run.values[at] ?? NOTHING_ENTERED,
            ...remarksAt(`${pointer}/${doubtAt(at)}`),
          }))}
        stated={run.doubts}
        onChange={(doubts) => onChange({ ...run, doubts })}
      />
      <Contact run={run} />
      <General remarks={remarksAt(pointer)} />
      {outcome === undefined ? (
        <Lacking live={live} pointer={pointer} />
      ) : (
        <RunResult outcome={outcome} />
      )}
    </section>
  )
}

function Timing({ run, onTimes }: Pick<RunProps, 'run' | 'onTimes'>) {
  const [isTiming, setTiming] = useState(() => watchOf(run.key) !== null)
  if (isTiming) {
    return <Stopwatch runKey={run.key} onClose={() => setTiming(false)} onTimes={onTimes} />
  }
  return (
    <button type="button" class="big" onClick={() => setTiming(true)}>
      Stopwatch
    </button>
  )
}

function Contact({ run }: Pick<RunProps, 'run'>) {
  if (run.kind !== 'tipClearance' || run.choices.contactSeen !== 'true') return null
  return (
    <p class="warning warning-stop">
      <strong>Do not fly this setup.</strong> Sent like this, it is marked “do not fly” for
      everybody until a moderator lifts that, with a reason. Have it inspected before you fly.
    </p>
  )
}

/** What is said of the run as a whole. */
function General({ remarks: { faults = [], doubts = [] } }: { remarks: ReturnType<RemarksAt> }) {
  return (
    <>
      {faults.map((fault) => (
        <p class="fault" key={fault}>
          {fault}
        </p>
      ))}
      {doubts.map((doubt) => (
        <p class="doubt" key={doubt}>
          {doubt}
        </p>
      ))}
    </>
  )
}
