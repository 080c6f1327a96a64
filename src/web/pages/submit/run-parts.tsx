import { NumberField } from '../../components/fields.tsx'
import { NOTHING_ENTERED } from '../../units.ts'
import { doubtAt } from './body.ts'
import type { RunForm } from './form.ts'
import type { RemarksAt } from './remarks.ts'
import { LEGS, type NumberSpec } from './run-fields.ts'

interface Props {
  readonly run: RunForm
  readonly onChange: (run: RunForm) => void
}

/** More headings than the three that are needed. */
export function Legs({ run, onChange }: Props) {
  const legs = run.legs ?? LEGS.least
  return (
    <div class="row">
      {legs < LEGS.most && (
        <button type="button" onClick={() => onChange({ ...run, legs: legs + 1 })}>
          Another leg
        </button>
      )}
      {legs > LEGS.least && (
        <button type="button" class="quiet" onClick={() => onChange({ ...run, legs: legs - 1 })}>
          Leave out leg {legs}
        </button>
      )}
    </div>
  )
}

interface DoubtProps extends Props {
  readonly asked: readonly NumberSpec[]
  readonly pointer: string
  readonly remarksAt: RemarksAt
}

/** For those who know how sure their instrument is; everybody else leaves it closed. */
export function RunDoubts({ run, asked, pointer, remarksAt, onChange }: DoubtProps) {
  const fields = asked.filter(({ hasDoubt }) => hasDoubt === true)
  const isStated = fields.some(({ at }) => (run.doubts?.[at] ?? NOTHING_ENTERED).text !== '')
  return (
    <details open={isStated}>
      <summary>How sure are these readings?</summary>
      <p class="hint">
        One standard deviation of each, if you know it. Left open, usual values are taken.
      </p>
      <div class="fields">
        {fields.map(({ at, label, dimension, sign }) => (
          <NumberField
            key={at}
            label={`± ${label}`}
            isOptional
            {...(dimension === undefined ? {} : { dimension })}
            {...(sign === undefined ? {} : { sign })}
            value={run.doubts?.[at] ?? NOTHING_ENTERED}
            {...remarksAt(`${pointer}/${doubtAt(at)}`)}
            onChange={(doubt) => onChange({ ...run, doubts: { ...run.doubts, [at]: doubt } })}
          />
        ))}
      </div>
    </details>
  )
}
