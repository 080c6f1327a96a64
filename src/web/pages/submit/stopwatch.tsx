import { useEffect, useState } from 'preact/hooks'

import { recall, remember } from '../../store/device.ts'
import { clockText, freshWatch, lapTimesS, totalS, type Watch } from './stopwatch-times.ts'

const STORED = 'stopwatch'

interface Props {
  readonly runKey: string
  /** The times taken [s]: one, or one for each lap. */
  readonly onTimes: (timesS: readonly number[]) => void
  readonly onClose: () => void
}

/** Whether a stopwatch was left running for this run, perhaps in a tab that was closed since. */
export function hasWatch(runKey: string): boolean {
  return recall<Watch>(STORED)?.runKey === runKey
}

/** Large targets for gloves and sunlight. Times are differences of the device's clock. */
export function Stopwatch({ runKey, onTimes, onClose }: Props) {
  const [watch, setWatch] = useState<Watch>(() => {
    const kept = recall<Watch>(STORED)
    return kept?.runKey === runKey ? kept : freshWatch(runKey)
  })
  const isRunning = watch.startedAt !== null && watch.stoppedAt === null
  const now = useNow(isRunning)
  useStayAwake(isRunning)
  const change = (part: Partial<Watch>) => {
    const next = { ...watch, ...part }
    setWatch(next)
    remember(STORED, next)
  }
  const finish = (timesS: readonly number[]) => {
    remember(STORED, null)
    onTimes(timesS)
    onClose()
  }
  const laps = lapTimesS(watch, now)
  return (
    <section class="stopwatch" aria-label="Stopwatch">
      <p class="clock" role="timer">
        {clockText(totalS(watch, now))}
      </p>
      {watch.stoppedAt === null ? (
        <div class="big-buttons">
          {isRunning ? (
            <>
              <button
                type="button"
                class="big"
                onClick={() => change({ lapsAt: [...watch.lapsAt, Date.now()] })}
              >
                Lap {laps.length}
              </button>
              <button
                type="button"
                class="big primary"
                onClick={() => change({ stoppedAt: Date.now() })}
              >
                Stop
              </button>
            </>
          ) : (
            <button
              type="button"
              class="big primary"
              onClick={() => change({ startedAt: Date.now() })}
            >
              Start
            </button>
          )}
        </div>
      ) : (
        <Taken
          laps={laps}
          totalTimeS={totalS(watch, now)}
          onTimes={finish}
          onAgain={() => change(freshWatch(runKey))}
        />
      )}
      {laps.length > 1 && (
        <ol class="laps" aria-label="Laps">
          {laps.map((seconds, index) => (
            <li key={`lap ${index + 1}`}>{clockText(seconds)}</li>
          ))}
        </ol>
      )}
      <button
        type="button"
        class="quiet"
        onClick={() => {
          remember(STORED, null)
          onClose()
        }}
      >
        Close without a time
      </button>
    </section>
  )
}

function Taken(props: {
  readonly laps: readonly number[]
  readonly totalTimeS: number
  readonly onTimes: (timesS: readonly number[]) => void
  readonly onAgain: () => void
}) {
  const { laps, totalTimeS, onTimes, onAgain } = props
  return (
    <div class="row">
      <button type="button" class="primary" onClick={() => onTimes([totalTimeS])}>
        Take {totalTimeS.toFixed(1)} s
      </button>
      {laps.length > 1 && (
        <button type="button" onClick={() => onTimes(laps)}>
          One run for each of the {laps.length} laps
        </button>
      )}
      <button type="button" onClick={onAgain}>
        Again from zero
      </button>
    </div>
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

/** The screen stays on while the watch runs, where the browser lets us ask for it. */
function useStayAwake(isRunning: boolean): void {
  useEffect(() => {
    if (!isRunning || navigator.wakeLock === undefined) return
    const asked = navigator.wakeLock.request('screen').catch(() => null)
    return () => void asked.then((lock) => lock?.release())
  }, [isRunning])
}
