import { type ForestRow, forest } from '../../../charts/forest.ts'
import type { Answer, Schemas } from '../../api/client.ts'
import { useAnswer } from '../../api/use-answer.ts'
import { AnswerState } from '../../components/notices.tsx'
import { Figure } from '../../components/picture.tsx'
import { Table } from '../../components/table.tsx'
import { useReading } from '../../settings.ts'

/** Standard uncertainties on each side that hold 95 % of a normal distribution. */
const COVERAGE = 1.96
const MOST = 50

type Public = Extract<Answer<'/v1/submissions'>['items'][number], { view: 'public' }>

/** The tests behind the figures, as everybody sees them: not who, where or on which day. */
export function Tests({ setupId }: { readonly setupId: string }) {
  const asked = useAnswer('/v1/submissions', { query: { setupId, limit: MOST } })
  const tests = (asked.got?.body.items ?? []).filter((one): one is Public => one.view === 'public')
  return (
    <section>
      <h2>Tests behind it</h2>
      <AnswerState asked={asked} />
      {asked.got !== null && tests.length === 0 && <p>Nobody has submitted a test of it yet.</p>}
      {tests.length > 0 && <Sessions tests={tests} setupId={setupId} />}
    </section>
  )
}

interface Session {
  readonly test: Public
  readonly climbs: readonly Schemas['Normalized'][]
  readonly burns: readonly Schemas['Normalized'][]
}

function Sessions({
  tests,
  setupId,
}: {
  readonly tests: readonly Public[]
  readonly setupId: string
}) {
  const reading = useReading()
  const unit = reading.unit('climbRate')
  const sessions = tests.map((test) => sessionOf(test, setupId))
  const rows = sessions.flatMap((session) => rowOf(session, reading.quantity, unit.toReader))
  return (
    <>
      {rows.length > 0 && (
        <Figure
          caption="Mean climb of each session at 120 kg, sea level, 15 °C, with the 95 % interval of one of its runs."
          draw={(widthPx) =>
            forest(rows, {
              widthPx,
              title: 'Climbs of each session',
              axis: `Climb rate, ${unit.sign}`,
              write: (value) => value.toFixed(unit.decimals),
            })
          }
        />
      )}
      <Table
        label="Tests behind it"
        heads={['Flown in', 'Field', 'Air', 'Climbs', 'Burns', 'Interest']}
      >
        {sessions.map(({ test, climbs, burns }) => (
          <tr key={test.id}>
            <td>{test.flownIn}</td>
            <td>{reading.quantity('height', test.conditions.elevationM)}</td>
            <td>
              {reading.quantity('temperature', test.conditions.temperatureC)},{' '}
              {test.conditions.airMotion}
            </td>
            <td>{climbs.length}</td>
            <td>{burns.length}</td>
            <td>{test.interest}</td>
          </tr>
        ))}
      </Table>
      {tests.length === MOST && <p class="hint">The latest {MOST} are shown.</p>}
    </>
  )
}

function sessionOf(test: Public, setupId: string): Session {
  const runs = test.entries
    .filter((entry) => entry.setupId === setupId)
    .flatMap((entry) => entry.runs.map(({ normalized }) => normalized))
  return {
    test,
    climbs: runs.filter(({ metric }) => metric === 'climbRate'),
    burns: runs.filter(({ metric }) => metric === 'fuelFlow'),
  }
}

function rowOf(
  { test, climbs }: Session,
  quantity: (dimension: 'height' | 'temperature', stored: number) => string,
  toReader: (value: number) => number,
): ForestRow[] {
  if (climbs.length === 0) return []
  const mean = climbs.reduce((sum, { value }) => sum + value, 0) / climbs.length
  const half = COVERAGE * Math.max(...climbs.map(({ standardUncertainty }) => standardUncertainty))
  const { elevationM, temperatureC } = test.conditions
  return [
    {
      name: `${test.flownIn} + ${quantity('height', elevationM)}, ${quantity('temperature', temperatureC)}, ${climbs.length} climbs`,
      estimate: toReader(mean),
      low: toReader(mean - half),
      high: toReader(mean + half),
      ...(test.interest === 'none' ? {} : { tone: 'quiet' as const }),
    },
  ]
}
