import type { Schemas } from '../../api/client.ts'
import { useAnswer } from '../../api/use-answer.ts'
import { DoubtField } from '../../components/doubt-field.tsx'
import { ChoiceField, NumberField, RadioRow, TextField } from '../../components/fields.tsx'
import { useReading } from '../../settings.ts'
import { type Entered, enteredFrom, NOTHING_ENTERED } from '../../units.ts'
import type { Form, WingForm } from './form.ts'
import type { RemarksAt } from './remarks.ts'

interface Props {
  readonly form: Form
  readonly remarksAt: RemarksAt
  readonly onChange: (part: Partial<Form>) => void
}

const AIR_MOTION = [
  ['calm', 'Calm'],
  ['light', 'Light'],
  ['active', 'Active'],
  ['thermic', 'Thermic'],
] as const

/** Place and air: what all runs of the session share. */
export function PlaceAndAir({ form, remarksAt, onChange }: Props) {
  return (
    <section>
      <h2>Place and air</h2>
      <div class="fields">
        <TextField
          label="Day"
          type="date"
          value={form.flownOn}
          max={new Date().toISOString().slice(0, 10)}
          {...remarksAt('/flownOn')}
          onChange={(flownOn) => onChange({ flownOn })}
        />
        <TextField
          label="Field"
          hint="Shown to nobody but you"
          value={form.siteName}
          {...remarksAt('/site/name')}
          onChange={(siteName) => onChange({ siteName })}
        />
        <NumberField
          label="Elevation of the field"
          dimension="height"
          value={form.elevationM}
          {...remarksAt('/site/elevationM')}
          onChange={(elevationM) => onChange({ elevationM })}
        />
        <NumberField
          label="Air temperature"
          dimension="temperature"
          value={form.temperatureC}
          {...remarksAt('/conditions/temperatureC')}
          onChange={(temperatureC) => onChange({ temperatureC })}
        />
        <ChoiceField
          label="Pressure is"
          value={form.pressureKind}
          choices={[
            ['qnhHPa', 'QNH, at sea level'],
            ['stationPressureHPa', 'As read at the field'],
          ]}
          onChange={(pressureKind) => onChange({ pressureKind })}
        />
        <NumberField
          label="Pressure"
          isOptional
          dimension="pressure"
          value={form.pressureHPa}
          {...remarksAt(`/conditions/${form.pressureKind}`)}
          onChange={(pressureHPa) => onChange({ pressureHPa })}
        />
        <NumberField
          label="Relative humidity"
          isOptional
          sign="%"
          value={form.relativeHumidityPct}
          {...remarksAt('/conditions/relativeHumidityPct')}
          onChange={(relativeHumidityPct) => onChange({ relativeHumidityPct })}
        />
        <NumberField
          label="Wind"
          isOptional
          dimension="speed"
          value={form.windMps}
          {...remarksAt('/conditions/windMps')}
          onChange={(windMps) => onChange({ windMps })}
        />
      </div>
      <RadioRow
        legend="How did the air feel?"
        value={form.airMotion}
        choices={AIR_MOTION}
        onChange={(airMotion) => onChange({ airMotion })}
      />
    </section>
  )
}

/** Pilot and wing: the same as last time for most. */
export function PilotAndWing({ form, remarksAt, onChange }: Props) {
  const { wing } = form
  const change = (part: Partial<WingForm>) => onChange({ wing: { ...wing, id: null, ...part } })
  return (
    <section>
      <h2>You and your wing</h2>
      <div class="fields">
        <NumberField
          label="Pilot with clothing"
          dimension="mass"
          value={form.pilotMassKg}
          {...remarksAt('/pilot/massKg')}
          onChange={(pilotMassKg) => onChange({ pilotMassKg })}
        />
        <WingChoice wing={wing} onChange={(next) => onChange({ wing: next })} />
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
        <DoubtField
          summary="How sure is the glide ratio?"
          label="± Glide ratio"
          value={wing.glideDoubt}
          {...remarksAt('/wing/uncertainty/glideRatio')}
          onChange={(glideDoubt) => change({ glideDoubt })}
        />
        <ChoiceField
          label="The glide ratio is"
          value={wing.glideSource}
          choices={[
            ['measured', 'Measured with the engine off'],
            ['catalogue', 'Of the wing alone, from a catalogue'],
            ['estimated', 'Estimated'],
          ]}
          onChange={(glideSource) => change({ glideSource })}
        />
        <NumberField
          label="Airspeed at trim"
          isOptional
          dimension="speed"
          value={wing.trimSpeedMps}
          {...remarksAt('/wing/trimSpeedMps')}
          onChange={(trimSpeedMps) => change({ trimSpeedMps })}
        />
        <NumberField
          label="All-up mass at that speed"
          isOptional
          dimension="mass"
          value={wing.trimAtAllUpMassKg}
          {...remarksAt('/wing/trimAtAllUpMassKg')}
          onChange={(trimAtAllUpMassKg) => change({ trimAtAllUpMassKg })}
        />
      </div>
    </section>
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

const INTERESTS = [
  ['none', 'None'],
  ['dealer', 'I sell it'],
  ['maker', 'I make it'],
  ['sponsored', 'It was given to me'],
] as const

export function InterestAndNote({ form, onChange }: Props) {
  return (
    <section>
      <h2>Your interest in the result</h2>
      <p>It is shown with every answer that rests on this test. It does not count against you.</p>
      <RadioRow
        legend="In what you tested"
        value={form.interest}
        choices={INTERESTS}
        onChange={(interest) => onChange({ interest })}
      />
      <TextField
        label="Note"
        isOptional
        hint="Shown to nobody but you"
        value={form.note}
        onChange={(note) => onChange({ note })}
      />
    </section>
  )
}

/** A pure number as if it had been typed. */
function plain(value: number | undefined): Entered {
  return value === undefined ? NOTHING_ENTERED : { text: String(value), unit: '', stored: value }
}
