import type { Schemas } from '../../api/client.ts'
import { DoubtField } from '../../components/doubt-field.tsx'
import { ChoiceField, NumberField } from '../../components/fields.tsx'
import { SetupSearch } from '../../components/setup-search.tsx'
import { NOTHING_ENTERED } from '../../units.ts'
import { blankRun, type EntryForm, type KnownSetup, type RunForm } from './form.ts'
import type { Live } from './live.ts'
import { NewSetup } from './new-setup/new-setup.tsx'
import type { RemarksAt } from './remarks.ts'
import { RunCard } from './run-card.tsx'
import { RUN_KINDS, RUN_SPECS, type RunKind } from './run-fields.ts'

interface Props {
  readonly entry: EntryForm
  readonly index: number
  readonly live: Live
  readonly remarksAt: RemarksAt
  readonly taken: readonly string[]
  readonly heightSource: string | undefined
  readonly onChange: (entry: EntryForm) => void
  readonly onRemove: () => void
}

export function knownSetup({ id, name, powerplant, propeller }: Schemas['Setup']): KnownSetup {
  return { id, name, drive: powerplant.drive, propellerDiameterCm: propeller.diameterCm }
}

/** One setup as it was flown: which, how heavy, what was measured. */
export function EntryCard(props: Props) {
  const { entry, index, remarksAt, onChange } = props
  const pointer = `/entries/${index}`
  const addRun = (kind: RunKind) => {
    const before = entry.runs.findLast((run) => run.kind === kind)
    onChange({ ...entry, runs: [...entry.runs, blankRun(kind, before, props.heightSource)] })
  }
  return (
    <section class="entry">
      <div class="run-head">
        <h2>Setup {index + 1}</h2>
        <button type="button" class="quiet" onClick={props.onRemove}>
          Remove this setup
        </button>
      </div>
      <Which {...props} />
      <div class="fields">
        <NumberField
          label="All-up mass at the start"
          hint="Pilot, clothing, wing, engine, frame and fuel"
          dimension="mass"
          value={entry.allUpMassKg}
          {...remarksAt(`${pointer}/allUpMassKg`)}
          onChange={(allUpMassKg) => onChange({ ...entry, allUpMassKg })}
        />
        <ChoiceField
          label="How it is known"
          value={entry.massSource}
          choices={[
            ['estimated', 'Added up or estimated'],
            ['weighed', 'Weighed ready to fly'],
          ]}
          onChange={(massSource) => onChange({ ...entry, massSource })}
        />
        <DoubtField
          summary="How sure is the mass?"
          label="± All-up mass"
          dimension="mass"
          value={entry.massDoubt}
          {...remarksAt(`${pointer}/uncertainty/allUpMassKg`)}
          onChange={(massDoubt) => onChange({ ...entry, massDoubt })}
        />
        <NumberField
          label="Engine hours"
          isOptional
          sign="h"
          value={entry.engineHours}
          {...remarksAt(`${pointer}/engineHours`)}
          onChange={(engineHours) => onChange({ ...entry, engineHours })}
        />
      </div>
      <Runs {...props} />
      <fieldset>
        <legend>{entry.runs.length === 0 ? 'What did you measure?' : 'Measured more?'}</legend>
        <div class="kinds">
          {RUN_KINDS.map((kind) => (
            <button type="button" key={kind} onClick={() => addRun(kind)}>
              <strong>{RUN_SPECS[kind].label}</strong>
              <small>{RUN_SPECS[kind].about}</small>
            </button>
          ))}
        </div>
        {(remarksAt(`${pointer}/runs`).faults ?? []).map((fault) => (
          <p class="fault" key={fault}>
            {fault}
          </p>
        ))}
      </fieldset>
    </section>
  )
}

function Which({ entry, index, taken, remarksAt, onChange }: Props) {
  const faults = remarksAt(`/entries/${index}/setupId`).faults ?? []
  return (
    <>
      {entry.setup === null ? (
        <>
          <SetupSearch
            label="Which setup?"
            without={taken}
            onChoose={(setup) => onChange({ ...entry, setup: knownSetup(setup) })}
          />
          <NewSetup onReady={(setup) => onChange({ ...entry, setup: knownSetup(setup) })} />
        </>
      ) : (
        <p class="chosen-setup">
          <strong>{entry.setup.name}</strong>
          <button type="button" class="quiet" onClick={() => onChange({ ...entry, setup: null })}>
            Choose another
          </button>
        </p>
      )}
      {faults.map((fault) => (
        <p class="fault" key={fault}>
          {fault}
        </p>
      ))}
    </>
  )
}

function Runs({ entry, index, live, remarksAt, onChange }: Props) {
  const kinds = [...new Set(entry.runs.map(({ kind }) => kind))]
  const replace = (at: number, ...runs: readonly RunForm[]) =>
    onChange({ ...entry, runs: entry.runs.toSpliced(at, 1, ...runs) })
  return (
    <>
      {kinds.map((kind) => (
        <p class="caution" key={kind}>
          {RUN_SPECS[kind].caution}
        </p>
      ))}
      {entry.runs.map((run, at) => (
        <RunCard
          key={run.key}
          run={run}
          number={entry.runs.slice(0, at + 1).filter(({ kind }) => kind === run.kind).length}
          pointer={`/entries/${index}/runs/${at}`}
          outcome={live.outcomes.get(run.key)}
          remarksAt={remarksAt}
          onChange={(next) => replace(at, next)}
          onRemove={() => replace(at)}
          onMore={(timesS) => replace(at, run, ...timesS.map((time) => timed(run, time)))}
        />
      ))}
    </>
  )
}

/** Another run of the kind with its time taken. */
function timed(like: RunForm, timeS: number): RunForm {
  const stored = Number(timeS.toFixed(1))
  const run = blankRun(like.kind, like)
  const durationS = { ...NOTHING_ENTERED, text: String(stored), stored }
  return { ...run, values: { ...run.values, durationS } }
}
