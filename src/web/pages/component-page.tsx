import { forest } from '../../charts/forest.ts'
import { valueRows } from '../../charts/setup-rows.ts'
import type { Schemas } from '../api/client.ts'
import { useAnswer } from '../api/use-answer.ts'
import { AnswerState } from '../components/notices.tsx'
import { Figure } from '../components/picture.tsx'
import { ReportForm } from '../components/report-form.tsx'
import { SafetyNotices } from '../components/safety.tsx'
import { SetupName } from '../components/setup-name.tsx'
import { readingOf } from '../metrics.ts'
import { useReading } from '../settings.ts'
import { writeNumber } from '../units.ts'

type Component = Schemas['Component']

/** As many setups are compared at once. */
const MOST = 50

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
          {part.kind === 'wing' ? <Facts part={part} /> : <Flown part={part} />}
          <ReportForm about={{ componentId: id }} />
        </>
      )}
    </>
  )
}

/** Labels of the fields, with the unit where the name of the field has it. */
const LABELS: Readonly<Record<string, readonly [label: string, unit?: string]>> = {
  displacementCc: ['Swept volume', 'cm³'],
  ratedPowerKw: ['Power stated by the maker', 'kW'],
  ratedRpm: ['Speed at that power', '1/min'],
  reductionRatio: ['Reduction from engine to propeller'],
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

/** The part with the setups it was flown in: what must not be flown stands before all else. */
function Flown({ part }: { readonly part: Component }) {
  const filter = `${part.kind}Id` as 'powerplantId' | 'propellerId' | 'frameId'
  const asked = useAnswer('/v1/setups', { query: { [filter]: part.id, limit: MOST } })
  const setups = (asked.got?.body.items ?? []).map(({ id, name, safety }) => ({
    setupId: id,
    name,
    safety,
  }))
  return (
    <>
      <SafetyNotices setups={setups.map(withReasons)} />
      <Facts part={part} />
      <section>
        <h2>Flown in</h2>
        <AnswerState asked={asked} />
        {asked.got !== null && setups.length === 0 && <p>No setup with it has been entered yet.</p>}
        {setups.length > 1 && <Standing setups={setups} />}
        {setups.length > 0 && (
          <ul class="list">
            {setups.map((setup) => (
              <li key={setup.setupId}>
                <SetupName setup={setup} />
              </li>
            ))}
          </ul>
        )}
        {setups.length > 1 && (
          <p>
            <a href={`/compare?setups=${idsOf(setups)}`}>Compare them at your conditions</a>
          </p>
        )}
      </section>
    </>
  )
}

interface FlownSetup {
  readonly setupId: string
  readonly name: string
  readonly safety: Schemas['Setup']['safety']
}

function idsOf(setups: readonly FlownSetup[]): string {
  return setups.map(({ setupId }) => setupId).join(',')
}

function withReasons({ setupId, name, safety: { state, reports } }: FlownSetup) {
  const open = reports.filter(({ liftedAt }) => liftedAt === undefined)
  return { setupId, name, safety: { state, advisories: open.map(({ reason }) => reason) } }
}

/** How the setups with this part climb, beside one another. */
function Standing({ setups }: { readonly setups: readonly FlownSetup[] }) {
  const asked = useAnswer('/v1/comparisons', {
    query: { metric: 'climbRate', setups: idsOf(setups) },
  })
  const metric = readingOf('climbRate', useReading())
  const { quantity } = useReading()
  const answer = asked.got?.body
  return (
    <>
      <AnswerState asked={asked} />
      {answer !== undefined && (
        <Figure
          caption={`Climb of each setup with it, at ${quantity('mass', answer.conditions.allUpMassKg)}, sea level, standard air. Dot: the estimate. Bar: where the truth lies with 95 % certainty.`}
          draw={(widthPx) =>
            forest(valueRows(answer.setups, metric.toReader), {
              widthPx,
              title: 'Climb of the setups with this part',
              axis: `Climb rate, ${metric.sign}`,
              write: metric.write,
            })
          }
        />
      )}
    </>
  )
}
