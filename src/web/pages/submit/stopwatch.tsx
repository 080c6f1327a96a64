import { useEffect, useRef, useState } from 'preact/hooks'

import { SureButton } from '../../components/sure-button.tsx'
import {
  clockText,
  freshWatch,
  lapTimesS,
  type Press,
  pressed,
  spokenTime,
  totalS,
} from './stopwatch-times.ts'
import { useStayAwake } from './use-stay-awake.ts'
import { forgetWatch, keepWatch, watchOf } from './watches.ts'

interface Props {
  readonly runKey: string
  /** The times taken [s]: one, or one for each lap. */
  readonly onTimes: (timesS: readonly number[]) => void
  readonly onClose: () => void
}

/** Large targets for gloves and sunlight. Times are differences of the device's clock. */
export function Stopwatch({ runKey, onTimes, onClose }: Props) {
  const [watch, setWatch] = useState(() => watchOf(runKey) ?? freshWatch(runKey))
  const [said, setSaid] = useState('')
  const isRunning = watch.startedAt !== null && watch.stoppedAt === null
  const now = useNow(isRunning)
  useStayAwake(isRunning)
  const laps = lapTimesS(watch, now)
  const press = (what: Press) => {
    const next = pressed(watch, what)
    setWatch(next)
    keepWatch(next)
    setSaid(sentenceOf(what, lapTimesS(next, Date.now())))
  }
  const close = () => {
    forgetWatch(runKey)
    onClose()
  }
  return (
    <section class="stopwatch" aria-label="Stopwatch">
      <p class="clock" role="timer">
        {clockText(totalS(watch, now))}
      </p>
      <p class="visually-hidden" role="status">
        {said}
      </p>
      {watch.stoppedAt === null ? (
        <Keys isRunning={isRunning} lap={laps.length} onPress={press} />
      ) : (
        <Taken
          laps={laps}
          totalTimeS={totalS(watch, now)}
          onPress={press}
          onTimes={(timesS) => {
            onTimes(timesS)
            close()
          }}
        />
      )}
      {laps.length > 1 && <Laps laps={laps} onUndo={() => press({ what: 'undoLap' })} />}
      {watch.startedAt === null ? (
        <button type="button" class="quiet" onClick={close}>
          Close the stopwatch
        </button>
      ) : (
        <SureButton
          isQuiet
          label="Close without a time"
          yes="Yes, forget this time"
          onSure={close}
        />
      )}
    </section>
  )
}

function sentenceOf({ what }: Press, laps: readonly number[]): string {
  const whole = laps.reduce((sum, lap) => sum + lap, 0)
  if (what === 'start' || what === 'goOn') return 'Running'
  if (what === 'lap') return `Lap ${laps.length - 1}: ${spokenTime(laps.at(-2) ?? 0)}`
  if (what === 'stop') return `Stopped at ${spokenTime(whole)}`
  return what === 'undoLap' ? 'Lap taken back' : 'At zero'
}

interface KeysProps {
  readonly isRunning: boolean
  readonly lap: number
  readonly onPress: (press: Press) => void
}

function Keys({ isRunning, lap, onPress }: KeysProps) {
  const at = usePressedAt()
  if (!isRunning) {
    return (
      <div class="big-buttons">
        <button
          type="button"
          class="big primary"
          {...at.down}
          onClick={(event) => onPress({ what: 'start', at: at.take(event) })}
        >
          Start
        </button>
      </div>
    )
  }
  return (
    <div class="big-buttons">
      <button
        type="button"
        class="big"
        {...at.down}
        onClick={(event) => onPress({ what: 'lap', at: at.take(event) })}
      >
        Lap {lap}
      </button>
      <button
        type="button"
        class="big primary"
        {...at.down}
        onClick={(event) => onPress({ what: 'stop', at: at.take(event) })}
      >
        Stop
      </button>
    </div>
  )
}

/** When the finger came down, not when it left: a glove stays on the glass for a while. */
function usePressedAt() {
  const downAt = useRef<number | null>(null)
  return {
    down: {
      onPointerDown: () => {
        downAt.current = Date.now()
      },
      onPointerCancel: () => {
        downAt.current = null
      },
    },
    /** A press of a key has no finger: then it is now. */
    take: ({ detail }: MouseEvent) => {
      const at = detail === 0 ? null : downAt.current
      downAt.current = null
      return at ?? Date.now()
    },
  }
}

function Taken(props: {
  readonly laps: readonly number[]
  readonly totalTimeS: number
  readonly onTimes: (timesS: readonly number[]) => void
  readonly onPress: (press: Press) => void
}) {
  const { laps, totalTimeS, onTimes, onPress } = props
  return (
    <div class="taken">
      <button type="button" class="big primary" onClick={() => onTimes([totalTimeS])}>
        Take {totalTimeS.toFixed(1)} s
      </button>
      {laps.length > 1 && (
        <button type="button" class="big" onClick={() => onTimes(laps)}>
          One run for each of the {laps.length} laps
        </button>
      )}
      <div class="row">
        <button type="button" onClick={() => onPress({ what: 'goOn' })}>
          It was a slip: go on
        </button>
        <SureButton
          label="Again from zero"
          yes="Yes, from zero"
          onSure={() => onPress({ what: 'reset' })}
        />
      </div>
    </div>
  )
}

function Laps({ laps, onUndo }: { readonly laps: readonly number[]; readonly onUndo: () => void }) {
  return (
    <>
      <ol class="laps" aria-label="Laps">
        {laps.map((seconds, index) => (
          <li key={`lap ${index + 1}`}>{clockText(seconds)}</li>
        ))}
      </ol>
      <button type="button" class="quiet" onClick={onUndo}>
        Undo the last lap
      </button>
    </>
  )
}

function useNow(isRunning: boolean): number {
  const [now, setNow] = useState(Date.now)
  useEffect(() => {
    if (!isRunning) return
    const timer = setInterval(() => setNow(Date.now()), 100)
    return () => clearInterval(timer)
  }, [isRunning])
  return now
}
