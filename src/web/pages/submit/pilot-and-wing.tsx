import type { Schemas } from '../../api/client.ts'
import { useAnswer } from '../../api/use-answer.ts'
import { Doubts } from '../../components/doubts.tsx'
import { ChoiceField, NumberField } from '../../components/fields.tsx'
import { type Reading, useReading } from '../../settings.ts'
import { type Entered, enteredFrom, NOTHING_ENTERED, writeNumber } from '../../units.ts'
import type { Form, WingForm } from './form.ts'
import { FoldOf, type SessionProps } from './session-part.tsx'

const WING_FIELDS = ['flatAreaM2', 'glideRatio', 'trimSpeedMps', 'trimAtAllUpMassKg'] as const

/** Pilot and wing: the same as last time for most. */
export function PilotAndWing({ form, remarksAt, onChange }: SessionProps) {
  const reading = useReading()
  const { wing } = form
  return (
    <section>
      <h2>You and your wing</h2>
      <FoldOf
        {...{ form, remarksAt }}
        line={lineOf(form, reading)}
        pointers={['/pilot/massKg', ...WING_FIELDS.map((field) => `/wing/${field}`)]}
      >
        <div class="fields">
          <NumberField
            label="Pilot with clothing"
            dimension="mass"
            value={form.pilotMassKg}
            {...remarksAt('/pilot/massKg')}
            onChange={(pilotMassKg) => onChange({ pilotMassKg })}
          />
          <WingChoice wing={wing} onChange={(next) => onChange({ wing: next })} />
          <WingFields {...{ form, remarksAt, onChange }} />
        </div>
        <Doubts
          summary="How sure is the pilot’s mass?"
          readings={[
            {
              at: 'massKg',
              label: 'Pilot with clothing',
              dimension: 'mass',
              reading: form.pilotMassKg,
              ...remarksAt('/pilot/uncertainty/massKg'),
            },
          ]}
          stated={form.doubts}
          onChange={(doubts) => onChange({ doubts })}
        />
        {wing.id === null && <WingDoubts {...{ form, remarksAt, onChange }} />}
      </FoldOf>
    </section>
  )
}

/** 82 kg · 25 m² · glide 7.0 */
function lineOf({ pilotMassKg, wing }: Form, reading: Reading): string {
  const { flatAreaM2, glideRatio } = wing
  return [
    pilotMassKg.stored === null ? '' : reading.quantity('mass', pilotMassKg.stored),
    flatAreaM2.stored === null ? '' : reading.quantity('area', flatAreaM2.stored),
    glideRatio.stored === null ? '' : `glide ${writeNumber(glideRatio.stored, 1)}`,
  ]
    .filter(Boolean)
    .join(' · ')
}

function WingFields({ form, remarksAt, onChange }: SessionProps) {
  const { wing } = form
  const change = (part: Partial<WingForm>) => onChange({ wing: { ...wing, id: null, ...part } })
  return (
    <>
      <NumberField
        label="Flat area of the wing"
        dimension="area"
        value={wing.flatAreaM2}
        {...remarksAt('/wing/flatAreaM2')}
        onChange={(flatAreaM2) => change({ flatAreaM2 })}
      />
      <NumberField
        label="Glide ratio"
        isOptional
        hint="With pilot and frame; the largest doubt in most results"
        value={wing.glideRatio}
        {...remarksAt('/wing/glideRatio')}
        onChange={(glideRatio) => change({ glideRatio })}
      />
      {wing.glideRatio.text !== '' && (
        <ChoiceField
          label="The glide ratio is"
          value={wing.glideSource}
          choices={[
            ['measured', 'Measured with the engine off'],
            ['catalogue', 'Of the wing alone, from a catalogue'],
            ['estimated', 'Estimated'],
          ]}
          {...remarksAt('/wing/glideSource')}
          onChange={(glideSource) => change({ glideSource })}
        />
      )}
      <NumberField
        label="Airspeed at trim"
        isOptional
        dimension="speed"
        value={wing.trimSpeedMps}
        {...remarksAt('/wing/trimSpeedMps')}
        onChange={(trimSpeedMps) => change({ trimSpeedMps })}
      />
      {(wing.trimSpeedMps.text !== '' || wing.trimAtAllUpMassKg.text !== '') && (
        <NumberField
          label="All-up mass at that speed"
          isOptional
          dimension="mass"
          value={wing.trimAtAllUpMassKg}
          {...remarksAt('/wing/trimAtAllUpMassKg')}
          onChange={(trimAtAllUpMassKg) => change({ trimAtAllUpMassKg })}
        />
      )}
    </>
  )
}

/** A wing of the catalogue has those of the catalogue. */
function WingDoubts({ form, remarksAt, onChange }: SessionProps) {
  const { wing } = form
  const at = (field: keyof WingForm & string) => ({
    at: field,
    ...remarksAt(`/wing/uncertainty/${field}`),
  })
  return (
    <Doubts
      summary="How sure are these of the wing?"
      readings={[
        { ...at('flatAreaM2'), label: 'Flat area', dimension: 'area', reading: wing.flatAreaM2 },
        { ...at('glideRatio'), label: 'Glide ratio', reading: wing.glideRatio },
        {
          ...at('trimSpeedMps'),
          label: 'Airspeed at trim',
          dimension: 'speed',
          reading: wing.trimSpeedMps,
        },
        {
          ...at('trimAtAllUpMassKg'),
          label: 'All-up mass at that speed',
          dimension: 'mass',
          reading: wing.trimAtAllUpMassKg,
        },
      ]}
      stated={wing.doubts}
      onChange={(doubts) => onChange({ wing: { ...wing, id: null, doubts } })}
    />
  )
}

function WingChoice(props: {
  readonly wing: WingForm
  readonly onChange: (wing: WingForm) => void
}) {
  const reading = useReading()
  const asked = useAnswer('/v1/components', { query: { kind: 'wing', limit: 200 } })
  const wings = (asked.got?.body.items ?? []) as readonly Schemas['Wing'][]
  const isKnown = wings.some(({ id }) => id === props.wing.id)
  const choose = (id: string) => {
    const found = wings.find((wing) => wing.id === id)
    if (found === undefined) return props.onChange({ ...props.wing, id: null })
    props.onChange({
      id,
      flatAreaM2: enteredFrom(found.flatAreaM2, reading.unit('area')),
      glideRatio: plain(found.glideRatio),
      glideSource: 'catalogue',
      trimSpeedMps: enteredFrom(found.trimSpeedMps, reading.unit('speed')),
      trimAtAllUpMassKg: enteredFrom(found.trimAtAllUpMassKg, reading.unit('mass')),
    })
  }
  return (
    <ChoiceField
      label="Wing"
      value={isKnown ? props.wing.id! : ''}
      choices={[
        ['', 'As described here'],
        ...wings.map(({ id, maker, model }) => [id, `${maker} ${model}`] as const),
      ]}
      onChange={choose}
    />
  )
}

/** A pure number as if it had been typed. */
function plain(value: number | undefined): Entered {
  return value === undefined ? NOTHING_ENTERED : { text: String(value), unit: '', stored: value }
}
