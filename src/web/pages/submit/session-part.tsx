import { Fold } from '../../components/fold.tsx'
import type { Form } from './form.ts'
import type { RemarksAt } from './remarks.ts'

/** What a part of the form that all runs share gets. */
export interface SessionProps {
  readonly form: Form
  readonly remarksAt: RemarksAt
  readonly onChange: (part: Partial<Form>) => void
}

interface Props extends Pick<SessionProps, 'form' | 'remarksAt'> {
  readonly line: string
  /** What stands in it. */
  readonly pointers: readonly string[]
  readonly children: preact.ComponentChildren
}

/** Folded where it was taken over from the last session; in the open on the first day. */
export function FoldOf({ form, remarksAt, line, pointers, children }: Props) {
  if (form.isRemembered !== true) return <>{children}</>
  const remarks = pointers.map(remarksAt)
  return (
    <Fold
      line={line}
      doubts={remarks.flatMap(({ doubts = [] }) => doubts).length}
      hasFault={remarks.some(({ faults = [] }) => faults.length > 0)}
    >
      {children}
    </Fold>
  )
}
