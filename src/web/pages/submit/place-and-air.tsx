import { Doubts } from '../../components/doubts.tsx'
import { ChoiceField, NumberField, RadioRow, TextField } from '../../components/fields.tsx'
import { useReading } from '../../settings.ts'
import { localDay } from './local-day.ts'
import { FoldOf, type SessionProps } from './session-part.tsx'

const AIR_MOTION = [
  ['calm', 'Calm'],
  ['light', 'Light'],
  ['active', 'Active'],
  ['thermic', 'Thermic'],
] as const

const PRESSURE_KINDS = [
  ['qnhHPa', 'QNH'],
  ['stationPressureHPa', 'At the field'],
] as const

/** Place and air: what all runs of the session share. */
export function PlaceAndAir(props: SessionProps) {
  const { form, remarksAt, onChange } = props
  return (
    <section>
      <h2>Place and air</h2>
      <Place {...props} />
      <Air {...props} />
      <RadioRow
        legend="How did the air feel?"
        value={form.airMotion}
        choices={AIR_MOTION}
        onChange={(airMotion) => onChange({ airMotion })}
      />
      <Doubts
        summary="How sure are place and air?"
        readings={[
          {
            at: 'elevationM',
            label: 'Elevation of the field',
            dimension: 'height',
            reading: form.elevationM,
            ...remarksAt('/site/uncertainty/elevationM'),
          },
          ...airReadings(form).map((reading) => ({
            ...reading,
            ...remarksAt(`/conditions/uncertainty/${reading.at}`),
          })),
        ]}
        stated={form.doubts}
        onChange={(doubts) => onChange({ doubts })}
      />
    </section>
  )
}

function airReadings(form: SessionProps['form']) {
  return [
    {
      at: 'temperatureC',
      label: 'Air temperature',
      dimension: 'temperature',
      reading: form.temperatureC,
    },
    { at: form.pressureKind, label: 'Pressure', dimension: 'pressure', reading: form.pressureHPa },
    {
      at: 'relativeHumidityPct',
      label: 'Humidity',
      sign: '%',
      reading: form.relativeHumidityPct,
    },
    { at: 'windMps', label: 'Wind', dimension: 'speed', reading: form.windMps },
  ] as const
}

function Place({ form, remarksAt, onChange }: SessionProps) {
  const reading = useReading()
  const { elevationM, flownOn, siteName } = form
  const height = elevationM.stored === null ? '' : reading.quantity('height', elevationM.stored)
  const day = flownOn === localDay(new Date()) ? 'today' : flownOn
  return (
    <FoldOf
      {...{ form, remarksAt }}
      line={[siteName, height, day].filter(Boolean).join(' · ')}
      pointers={['/flownOn', '/site/name', '/site/elevationM']}
    >
      <div class="fields">
        <TextField
          label="Day"
          type="date"
          value={flownOn}
          max={localDay(new Date())}
          {...remarksAt('/flownOn')}
          onChange={(day) => onChange({ flownOn: day })}
        />
        <TextField
          label="Field"
          hint="Shown to nobody but you"
          value={siteName}
          {...remarksAt('/site/name')}
          onChange={(name) => onChange({ siteName: name })}
        />
        <NumberField
          label="Elevation of the field"
          dimension="height"
          value={elevationM}
          {...remarksAt('/site/elevationM')}
          onChange={(height) => onChange({ elevationM: height })}
        />
      </div>
    </FoldOf>
  )
}

function Air({ form, remarksAt, onChange }: SessionProps) {
  return (
    <div class="fields fields-short">
      <NumberField
        label="Air temperature"
        dimension="temperature"
        value={form.temperatureC}
        {...remarksAt('/conditions/temperatureC')}
        onChange={(temperatureC) => onChange({ temperatureC })}
      />
      <NumberField
        label="Wind"
        isOptional
        dimension="speed"
        value={form.windMps}
        {...remarksAt('/conditions/windMps')}
        onChange={(windMps) => onChange({ windMps })}
      />
      <NumberField
        label="Pressure"
        isOptional
        dimension="pressure"
        value={form.pressureHPa}
        {...remarksAt(`/conditions/${form.pressureKind}`)}
        onChange={(pressureHPa) => onChange({ pressureHPa })}
      />
      <ChoiceField
        label="Pressure is"
        value={form.pressureKind}
        choices={PRESSURE_KINDS}
        onChange={(pressureKind) => onChange({ pressureKind })}
      />
      <NumberField
        label="Humidity"
        isOptional
        sign="%"
        value={form.relativeHumidityPct}
        {...remarksAt('/conditions/relativeHumidityPct')}
        onChange={(relativeHumidityPct) => onChange({ relativeHumidityPct })}
      />
    </div>
  )
}
