import type { Schemas } from '../../api/client.ts'
import { FiguresTable } from '../../components/figures-table.tsx'
import { type Reading, useReading } from '../../settings.ts'
import { writeNumber } from '../../units.ts'
import { AIR_WORDS, INTEREST_WORDS } from '../setup/session-rows.ts'
import { type NumberSpec, RUN_SPECS } from '../submit/run-fields.ts'

type Full = Schemas['FullSubmission']
type Run = Full['entries'][number]['runs'][number]

interface Props {
  readonly test: Full
  readonly nameOf: (setupId: string) => string
}

/** What the pilot read off, to find a slip in. */
export function TestAsSent({ test, nameOf }: Props) {
  const reading = useReading()
  return (
    <details>
      <summary>The test as it was sent</summary>
      <p>{factsOf(test, reading)}</p>
      <FiguresTable
        label="The test as it was sent"
        heads={['Run', 'All-up mass', 'Read off', 'Doubts while sent']}
        rows={test.entries.flatMap((entry, at) =>
          entry.runs.map((run, index) => ({
            key: `${at} ${index}`,
            head: (
              <>
                {RUN_SPECS[run.kind].label}{' '}
                <span class="reason">
                  Run {index + 1} with {nameOf(entry.setupId)}
                </span>
              </>
            ),
            cells: [
              reading.quantity('mass', entry.allUpMassKg),
              readOff(run, reading),
              run.warnings.map(({ detail }) => detail).join(' ') || 'none',
            ],
          })),
        )}
      />
    </details>
  )
}

/** Day, place, air, masses, interest. */
function factsOf(test: Full, { quantity }: Reading): string {
  const { site, conditions, pilot, wing, interest } = test
  const { flatAreaM2 } = wing
  return [
    `${test.flownOn}, ${site.name} at ${quantity('height', site.elevationM)}.`,
    `${quantity('temperature', conditions.temperatureC)}, air ${AIR_WORDS[conditions.airMotion]}.`,
    `Pilot ${quantity('mass', pilot.massKg)}${flatAreaM2 === undefined ? '' : `, wing ${quantity('area', flatAreaM2)}`}.`,
    `Interest: ${INTEREST_WORDS[interest]}. Revision ${test.currentRevision}.`,
    ...(test.withdrawnAt === null ? [] : ['The pilot has withdrawn it.']),
  ].join(' ')
}

function readOff(run: Run, reading: Reading): string {
  const body = run as unknown as Readonly<Record<string, unknown>>
  return RUN_SPECS[run.kind].numbers
    .flatMap((spec) => {
      const value = body[spec.at]
      return typeof value === 'number' ? [`${spec.label}: ${written(value, spec, reading)}`] : []
    })
    .join('; ')
}

function written(value: number, { dimension, sign }: NumberSpec, reading: Reading): string {
  if (dimension !== undefined) return reading.quantity(dimension, value)
  const text = writeNumber(value, Number.isInteger(value) ? 0 : 1)
  return sign === undefined ? text : `${text} ${sign}`
}
