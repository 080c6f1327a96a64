import { useEffect, useRef } from 'preact/hooks'

interface Props {
  /** What stands in it, in one line. */
  readonly line: string
  /** How many things in it were assumed; said in the line, so that they are not hidden. */
  readonly doubts: number
  /** Something in it is needed or wrong: then it opens by itself. */
  readonly hasFault: boolean
  readonly children: preact.ComponentChildren
}

/** What is the same as last time: one line with a large target that opens. */
export function Fold({ line, doubts, hasFault, children }: Props) {
  const details = useRef<HTMLDetailsElement>(null)
  useEffect(() => {
    if (hasFault && details.current) details.current.open = true
  }, [hasFault])
  return (
    <details class="fold" ref={details}>
      <summary>
        <span>
          {line}
          {doubts > 0 && <small> · {doubts} assumed</small>}
        </span>{' '}
        <strong>Change</strong>
      </summary>
      {children}
    </details>
  )
}
