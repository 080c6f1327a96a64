import { useState } from 'preact/hooks'

import type { RunOutcome } from '../../../core/normalise/types.ts'
import { ChoiceField, NumberField } from '../../components/fields.tsx'
import { NOTHING_ENTERED } from '../../units.ts'
import { isAsked } from './body.ts'
import type { RunForm } from './form.ts'
import type { RemarksAt } from './remarks.ts'
import { LEGS, numbersOf, RUN_SPECS } from './run-fields.ts'
import { Legs, RunDoubts } from './run-parts.tsx'
import { RunResult } from './run-result.tsx'
import { hasWatch, Stopwatch } from './stopwatch.tsx'

interface Props {
  readonly run: RunForm
  readonly number: number
  readonly pointer: string
  readonly outcome: RunOutcome | undefined
  readonly remarksAt: RemarksAt
  readonly onChange: (run: RunForm) => void
  readonly onRemove: () => void
  /** Further runs like this one, with these times [s]. */
  readonly onMore: (timesS: readonly number[]) => void
}

/** One run: its readings, and at once what they come to. */
export function RunCard(props: Props) {
  const { run, pointer, outcome, remarksAt, onChange } = props
  const spec = RUN_SPECS[run.kind]
  const [isTiming, setTiming] = useState(() => hasWatch(run.key))
  const asked = numbersOf(run.kind, run.legs ?? LEGS.least).filter((field) => isAsked(field, run))
  const general = remarksAt(pointer)
  const setNumber = (at: string, value: RunForm['values'][string]) =>
    onChange({ ...run, values: { ...run.values, [at]: value } })
  return (
    <section class="run">
      <div class="run-head">
        <h3>
          {spec.label} <span class="optional">run {props.number}</span>
        </h3>
        <button type="button" class="quiet" onClick={props.onRemove}>
          Remove
        </button>
      </div>
      {spec.hasStopwatch && !isTiming && (
        <button type="button" class="big" onClick={() => setTiming(true)}>
          Stopwatch
        </button>
      )}
      {isTiming && (
        <Stopwatch
          runKey={run.key}
          onClose={() => setTiming(false)}
          onTimes={([first, ...more]) => {
            const stored = Number((first ?? 0).toFixed(1))
            setNumber('durationS', { text: String(stored), unit: '', stored })
            if (more.length > 0) props.onMore(more)
          }}
        />
      )}
      <div class="fields">
        {asked.map((field) => (
          <NumberField
            key={field.at}
            {...field}
            value={run.values[field.at] ?? NOTHING_ENTERED}
            {...remarksAt(`${pointer}/${field.at}`)}
            onChange={(value) => setNumber(field.at, value)}
          />
        ))}
        {spec.choices.map(({ at, label, choices }) => (
          <ChoiceField
            key={at}
            label={label}
            value={run.choices[at] ?? choices[0]![0]}
            choices={choices}
            {...remarksAt(`${pointer}/${at}`)}
            onChange={(value) => onChange({ ...run, choices: { ...run.choices, [at]: value } })}
          />
        ))}
      </div>
      {run.kind === 'levelSpeed' && <Legs run={run} onChange={onChange} />}
      <RunDoubts run={run} asked={asked} pointer={pointer} {...{ remarksAt, onChange }} />
      {run.kind === 'tipClearance' && run.choices.contactSeen === 'true' && (
        <p class="warning warning-stop">
          <strong>Do not fly this setup.</strong> Sent like this, it is marked “do not fly” for
          everybody until a licensed person has looked into it.
        </p>
      )}
      {[...(general.faults ?? [])].map((fault) => (
        <p class="fault" key={fault}>
          {fault}
        </p>
      ))}
      {[...(general.doubts ?? [])].map((doubt) => (
        <p class="doubt" key={doubt}>
          {doubt}
        </p>
      ))}
      {outcome === undefined ? (
        <p class="hint">The result appears here as soon as its readings are complete.</p>
      ) : (
        <RunResult outcome={outcome} />
      )}
    </section>
  )
}
