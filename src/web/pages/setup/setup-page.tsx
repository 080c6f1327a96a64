import type { Schemas } from '../../api/client.ts'
import { useAnswer } from '../../api/use-answer.ts'
import { AnswerState } from '../../components/notices.tsx'
import { ReportForm } from '../../components/report-form.tsx'
import { SafetyNotices } from '../../components/safety.tsx'
import { Predictions } from './predictions.tsx'
import { Tests } from './tests.tsx'

/** The story of a setup: is it safe to look at, what will it do, what was flown. */
export function SetupPage({ id }: { readonly id: string }) {
  const asked = useAnswer('/v1/setups/{id}', { path: { id } })
  const setup = asked.got?.body
  return (
    <>
      <h1>{setup?.name ?? 'Setup'}</h1>
      <AnswerState asked={asked} />
      {setup !== undefined && <Story setup={setup} />}
    </>
  )
}

function Story({ setup }: { readonly setup: Schemas['Setup'] }) {
  const { id, name, safety, note } = setup
  const open = safety.reports.filter(({ liftedAt }) => liftedAt === undefined)
  const lifted = safety.reports.filter(({ liftedAt }) => liftedAt !== undefined)
  const shown = {
    setupId: id,
    name,
    safety: { state: safety.state, advisories: open.map(({ reason }) => reason) },
  }
  return (
    <>
      {setup.mergedIntoId !== undefined && (
        <p class="notice">
          The address you came by is of a duplicate that was merged into this setup.
        </p>
      )}
      <SafetyNotices setups={[shown]} />
      <Parts setup={setup} />
      {note !== undefined && <p>{note}</p>}
      <p class="no-print">
        <a href={`/compare?setups=${id}`}>Compare it with another</a>
      </p>
      <Predictions setupId={id} drive={setup.powerplant.drive} />
      <Tests setupId={id} />
      {lifted.length > 0 && (
        <section>
          <h2>Reports that were lifted</h2>
          <ul>
            {lifted.map(({ id: report, reason, liftedReason }) => (
              <li key={report}>
                {reason} Lifted: {liftedReason}
              </li>
            ))}
          </ul>
        </section>
      )}
      <ReportForm about={{ setupId: id }} />
    </>
  )
}

function Parts({ setup }: { readonly setup: Schemas['Setup'] }) {
  const { powerplant, propeller, frame } = setup
  const parts = [
    [
      'Engine',
      powerplant.id,
      `${powerplant.maker} ${powerplant.model}${powerplant.tune === 'modified' ? ', modified' : ''}`,
    ],
    [
      'Propeller',
      propeller.id,
      `${propeller.maker} ${propeller.model}, ${propeller.diameterCm} cm`,
    ],
    ['Frame', frame.id, `${frame.maker} ${frame.model}`],
  ] as const
  return (
    <dl class="facts">
      {parts.map(([kind, id, words]) => (
        <div key={kind}>
          <dt>{kind}</dt>
          <dd>
            <a href={`/components/${id}`}>{words}</a>
          </dd>
        </div>
      ))}
    </dl>
  )
}
