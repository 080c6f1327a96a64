import { changeSettings, type Theme, UNIT_SETS, useSettings } from '../settings.ts'
import { type Dimension, UNITS, unitOf } from '../units.ts'
import { ChoiceField } from './fields.tsx'

const NAMES: Readonly<Record<Dimension, string>> = {
  mass: 'Mass',
  height: 'Height',
  climbRate: 'Climb rate',
  speed: 'Wind and airspeed',
  temperature: 'Temperature',
  pressure: 'Pressure',
  force: 'Thrust',
  fuelVolume: 'Fuel burned',
  tank: 'Tank',
  fuelFlow: 'Fuel flow',
  electricPower: 'Battery power',
  area: 'Wing area',
  distance: 'Distance',
}

const THEMES: readonly (readonly [Theme, string])[] = [
  ['system', 'As the device'],
  ['light', 'Light'],
  ['dark', 'Dark'],
]

/** Units and light, kept on this device. What is stored and sent is always in SI units. */
export function SettingsPanel() {
  const { units, theme } = useSettings()
  return (
    <details class="settings no-print">
      <summary>Units and display</summary>
      <div class="row">
        {Object.entries(UNIT_SETS).map(([name, set]) => (
          <button type="button" key={name} onClick={() => changeSettings({ units: set })}>
            {name} units
          </button>
        ))}
      </div>
      <div class="fields">
        {(Object.keys(UNITS) as Dimension[]).map((dimension) => (
          <ChoiceField
            key={dimension}
            label={NAMES[dimension]}
            value={unitOf(dimension, units[dimension]).id}
            choices={UNITS[dimension].map(({ id, name }) => [id, name] as const)}
            onChange={(id) => changeSettings({ units: { ...units, [dimension]: id } })}
          />
        ))}
        <ChoiceField
          label="Light"
          value={theme}
          choices={THEMES}
          onChange={(next) => changeSettings({ theme: next })}
        />
      </div>
    </details>
  )
}
