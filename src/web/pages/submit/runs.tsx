import { Fragment } from 'preact'

import { NOTHING_ENTERED } from '../../units.ts'
import { blankRun, type EntryForm, type RunForm } from './form.ts'
import type { Live } from './live.ts'
import type { RemarksAt } from './remarks.ts'
import { RunCard } from './run-card.tsx'
import { RUN_KINDS, RUN_SPECS, type RunKind } from './run-fields.ts'

interface Props {
  readonly entry: EntryForm
  readonly index: number
  readonly live: Live
  readonly remarksAt: RemarksAt
  readonly heightSource: string | undefined
  readonly onChange: (entry: EntryForm) => void
}

/** What was measured with one setup, and what else may be. A caution stands before the first run it is for. */
export function Runs({ entry, index, live, remarksAt, heightSource, onChange }: Props) {
  const pointer = `/entries/${index}`
  const isFirst = ({ kind }: RunForm, at: number) =>
    entry.runs.findIndex((run) => run.kind === kind) === at
  const replace = (at: number, ...runs: readonly RunForm[]) =>
    onChange({ ...entry, runs: entry.runs.toSpliced(at, 1, ...runs) })
  const add = (kind: RunKind) => {
    const before = entry.runs.findLast((run) => run.kind === kind)
    onChange({ ...entry, runs: [...entry.runs, blankRun(kind, before, heightSource)] })
  }
  return (
    <>
      {entry.runs.map((run, at) => (
        <Fragment key={run.key}>
          {isFirst(run, at) && <p class="caution">{RUN_SPECS[run.kind].caution}</p>}
          <RunCard
            run={run}
            drive={entry.setup?.drive}
            number={entry.runs.slice(0, at + 1).filter(({ kind }) => kind === run.kind).length}
            pointer={`${pointer}/runs/${at}`}
            live={live}
            remarksAt={remarksAt}
            onChange={(next) => replace(at, next)}
            onRemove={() => replace(at)}
            onTimes={(timesS) => replace(at, ...runsOf(run, timesS))}
          />
        </Fragment>
      ))}
      <AddRun
        kinds={RUN_KINDS.filter((kind) => kind !== OF_OTHER_DRIVE[entry.setup?.drive ?? 'unknown'])}
        last={entry.runs.at(-1)?.kind}
        onAdd={add}
      />
      {(remarksAt(`${pointer}/runs`).faults ?? []).map((fault) => (
        <p class="fault" key={fault}>
          {fault}
        </p>
      ))}
    </>
  )
}

/** What a drive has nothing to measure of. */
const OF_OTHER_DRIVE: Readonly<Record<string, RunKind>> = {
  twoStroke: 'energyUse',
  fourStroke: 'energyUse',
  electric: 'fuelBurn',
}

/** At first all kinds in sight; afterwards one more of the same with one press. */
function AddRun(props: {
  readonly kinds: readonly RunKind[]
  readonly last: RunKind | undefined
  readonly onAdd: (kind: RunKind) => void
}) {
  const { kinds, last, onAdd } = props
  const all = (
    <div class="kinds">
      {kinds.map((kind) => (
        <button type="button" key={kind} onClick={() => onAdd(kind)}>
          <strong>{RUN_SPECS[kind].label}</strong>
          <small>{RUN_SPECS[kind].about}</small>
        </button>
      ))}
    </div>
  )
  if (last === undefined) {
    return (
      <fieldset>
        <legend>What did you measure?</legend>
        {all}
      </fieldset>
    )
  }
  return (
    <>
      <button type="button" class="more" onClick={() => onAdd(last)}>
        One more: {RUN_SPECS[last].label.toLowerCase()}
      </button>
      <details>
        <summary>Measured something else?</summary>
        {all}
      </details>
    </>
  )
}

/** The run with its time taken, and one more like it for each further time. */
function runsOf(run: RunForm, timesS: readonly number[]): RunForm[] {
  return timesS.map((timeS, index) => {
    const { values, ...rest } = index === 0 ? run : blankRun(run.kind, run)
    const stored = Number(timeS.toFixed(1))
    const durationS = { ...NOTHING_ENTERED, text: String(stored), stored }
    return { ...rest, values: { ...values, durationS } }
  })
}
