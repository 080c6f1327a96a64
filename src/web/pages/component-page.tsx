import type { Schemas } from '../api/client.ts'
import { useAnswer } from '../api/use-answer.ts'
import { AnswerState } from '../components/notices.tsx'
import { useReading } from '../settings.ts'
import { writeNumber } from '../units.ts'

type Component = Schemas['Component']

const KIND_WORDS: Readonly<Record<Component['kind'], string>> = {
  powerplant: 'Engine',
  propeller: 'Propeller',
  frame: 'Frame',
  wing: 'Wing',
}

/** A part: what its maker says of it, and the setups it was flown in. */
export function ComponentPage({ id }: { readonly id: string }) {
  const asked = useAnswer('/v1/components/{id}', { path: { id } })
  const part = asked.got?.body
  return (
    <>
      <h1>{part === undefined ? 'Component' : `${part.maker} ${part.model}`}</h1>
      <AnswerState asked={asked} />
      {part !== undefined && (
        <>
          <Facts part={part} />
          {part.kind !== 'wing' && <FlownIn part={part} />}
        </>
      )}
    </>
  )
}

/** Labels of the fields, with the unit where the name of the field has it. */
const LABELS: Readonly<Record<string, readonly [label: string, unit?: string]>> = {
  displacementCc: ['Swept volume', 'cm³'],
  ratedPowerKw: ['Power stated by the maker', 'kW'],
  ratedRpm: ['at', '1/min'],
  reductionRatio: ['Reduction'],
  diameterCm: ['Diameter', 'cm'],
  pitchCm: ['Pitch', 'cm'],
  blades: ['Blades'],
  material: ['Material'],
  hoopInnerDiameterCm: ['Inner diameter of the hoop', 'cm'],
  hoopDepthMm: ['Depth of the hoop', 'mm'],
  thrustLineAboveMountsMm: ['Thrust line above the hang points', 'mm'],
  glideRatio: ['Glide ratio stated for the wing'],
}

const DRIVES = { twoStroke: 'Two-stroke', fourStroke: 'Four-stroke', electric: 'Electric' } as const

function Facts({ part }: { readonly part: Component }) {
  const { quantity } = useReading()
  const lines: [string, string][] = [['Kind', KIND_WORDS[part.kind]]]
  if (part.kind === 'powerplant') {
    lines.push(['Drive', DRIVES[part.drive]])
    lines.push(['Tune', part.tune === 'modified' ? 'Modified' : 'As delivered'])
  }
  for (const [key, [label, unit]] of Object.entries(LABELS)) {
    const value = (part as unknown as Record<string, string | number | undefined>)[key]
    if (value !== undefined)
      lines.push([label, unit === undefined ? String(value) : `${value} ${unit}`])
  }
  if (part.kind === 'wing') {
    lines.push(['Flat area', quantity('area', part.flatAreaM2)])
    if (part.trimSpeedMps !== undefined)
      lines.push(['Airspeed at trim', quantity('speed', part.trimSpeedMps)])
  } else if (part.massKg !== undefined) lines.push(['Mass', quantity('mass', part.massKg)])
  if (part.price !== undefined) {
    const { amount, currency, asOf } = part.price
    lines.push(['Price', `${writeNumber(amount, 0)} ${currency}, seen ${asOf}`])
  }
  return (
    <dl class="facts">
      {lines.map(([label, value]) => (
        <div key={label}>
          <dt>{label}</dt>
          <dd>{value}</dd>
        </div>
      ))}
    </dl>
  )
}

function FlownIn({ part }: { readonly part: Component }) {
  const filter = `${part.kind}Id` as 'powerplantId' | 'propellerId' | 'frameId'
  const asked = useAnswer('/v1/setups', { query: { [filter]: part.id, limit: 100 } })
  const setups = asked.got?.body.items ?? []
  return (
    <section>
      <h2>Flown in</h2>
      <AnswerState asked={asked} />
      <ul class="list">
        {setups.map(({ id, name, safety }) => (
          <li key={id}>
            <a href={`/setups/${id}`}>{name}</a>
            {safety.state === 'doNotFly' && <strong class="stop"> Do not fly</strong>}
          </li>
        ))}
      </ul>
      {setups.length > 1 && (
        <p>
          <a href={`/compare?setups=${setups.map(({ id }) => id).join(',')}`}>Compare them</a>
        </p>
      )}
    </section>
  )
}
