import { forest } from '../../../charts/forest.ts'
import { useAnswer } from '../../api/use-answer.ts'
import { FiguresTable } from '../../components/figures-table.tsx'
import { AnswerState } from '../../components/notices.tsx'
import { Figure } from '../../components/picture.tsx'
import { useReading } from '../../settings.ts'
import {
  AIR_WORDS,
  INTEREST_WORDS,
  type PublicTest,
  rowOf,
  type Session,
  sessionOf,
} from './session-rows.ts'

const MOST = 50

/** The tests behind the figures, as everybody sees them: not who, where or on which day. */
export function Tests({ setupId }: { readonly setupId: string }) {
  const asked = useAnswer('/v1/submissions', { query: { setupId, limit: MOST } })
  const tests = (asked.got?.body.items ?? []).filter(
    (one): one is PublicTest => one.view === 'public',
  )
  return (
    <section>
      <h2 id="tests">Tests behind it</h2>
      <AnswerState asked={asked} />
      {asked.got !== null && tests.length === 0 && (
        <p>
          Nobody has submitted a test of it yet. <a href="/submit">Submit the first one</a>
        </p>
      )}
      {tests.length > 0 && <Sessions sessions={tests.map((test) => sessionOf(test, setupId))} />}
      {tests.length === MOST && <p class="hint">The latest {MOST} are shown.</p>}
    </section>
  )
}

function Sessions({ sessions }: { readonly sessions: readonly Session[] }) {
  const reading = useReading()
  const unit = reading.unit('climbRate')
  const rows = sessions.flatMap((session) => rowOf(session, reading.quantity, unit.toReader))
  if (rows.length === 0) return <SessionTable sessions={sessions} />
  return (
    <Figure
      caption={`Each session brought to ${reading.quantity('mass', 120)}, sea level, ${reading.quantity('temperature', 15)}. Dot: mean of its climbs. Bar: 95 % interval of one of them. Hollow: by somebody with an interest.`}
      draw={(widthPx, isPaper) =>
        forest(rows, {
          widthPx,
          isDense: isPaper,
          title: 'Climbs of each session',
          axis: `Climb rate, ${unit.sign}`,
          rowsAre: 'Session',
          write: (value) => value.toFixed(unit.decimals),
        })
      }
      twin={
        <details class="twin no-print">
          <summary>The same as a table, with air, burns and interest</summary>
          <SessionTable sessions={sessions} />
        </details>
      }
    />
  )
}

function SessionTable({ sessions }: { readonly sessions: readonly Session[] }) {
  const { number, quantity, unit } = useReading()
  const write = (value: number) => number('climbRate', value)
  return (
    <FiguresTable
      label="Tests behind it"
      heads={[
        'Flown in',
        `Climb rate, ${unit('climbRate').sign}`,
        '95 % interval',
        'Field',
        'Air',
        'Climbs',
        'Burns',
        'Interest',
      ]}
      rows={sessions.map(({ test, climb, climbs, burns }) => ({
        key: test.id,
        head: test.flownIn,
        cells: [
          climb === null ? '–' : write(climb.mean),
          climb === null ? '–' : `${write(climb.low)} to ${write(climb.high)}`,
          quantity('height', test.conditions.elevationM),
          `${quantity('temperature', test.conditions.temperatureC)}, ${AIR_WORDS[test.conditions.airMotion]}`,
          String(climbs.length),
          String(burns.length),
          INTEREST_WORDS[test.interest],
        ],
      }))}
    />
  )
}
