import { Doubts } from '../../components/doubts.tsx'
import { ChoiceField, NumberField } from '../../components/fields.tsx'
import { SureButton } from '../../components/sure-button.tsx'
import { ChosenSetup } from './chosen-setup.tsx'
import type { EntryForm } from './form.ts'
import type { Live } from './live.ts'
import type { RemarksAt } from './remarks.ts'
import { Runs } from './runs.tsx'

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

/** One setup as it was flown: which, how heavy, what was measured. */
export function EntryCard(props: Props) {
  const { entry, index, remarksAt, onChange } = props
  return (
    <section class="entry" aria-label={`Setup ${index + 1}`}>
      <div class="run-head">
        <h2>Setup {index + 1}</h2>
        <SureButton
          isQuiet
          label="Remove this setup"
          yes="Yes, remove it and its runs"
          onSure={props.onRemove}
        />
      </div>
      <ChosenSetup
        entry={entry}
        faults={remarksAt(`/entries/${index}/setupId`).faults ?? []}
        taken={props.taken}
        onChange={(setup) => onChange({ ...entry, setup })}
      />
      <MassAndHours {...{ entry, index, remarksAt, onChange }} />
      <Runs {...props} />
    </section>
  )
}

function MassAndHours(props: Pick<Props, 'entry' | 'index' | 'remarksAt' | 'onChange'>) {
  const { entry, index, remarksAt, onChange } = props
  const pointer = `/entries/${index}`
  return (
    <>
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
          {...remarksAt(`${pointer}/massSource`)}
          onChange={(massSource) => onChange({ ...entry, massSource })}
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
      <Doubts
        summary="How sure is the mass?"
        readings={[
          {
            at: 'allUpMassKg',
            label: 'All-up mass',
            dimension: 'mass',
            reading: entry.allUpMassKg,
            ...remarksAt(`${pointer}/uncertainty/allUpMassKg`),
          },
        ]}
        stated={entry.doubts}
        onChange={(doubts) => onChange({ ...entry, doubts })}
      />
    </>
  )
}
