import { useEffect, useState } from 'preact/hooks'

import { type CurvePoint, curve } from '../../../charts/curve.ts'
import { get, type Schemas } from '../../api/client.ts'
import { Failure, Progress } from '../../components/notices.tsx'
import { Figure } from '../../components/picture.tsx'
import { useReading } from '../../settings.ts'
import type { Dimension } from '../../units.ts'

const MASSES_KG = [80, 100, 120, 140, 160, 180]
const ELEVATIONS_M = [0, 500, 1000, 1500, 2000, 2500, 3000]

interface Props {
  readonly setupId: string
  readonly conditions: Readonly<Record<string, number>>
  /** The fits of the figures beside it: the curves rest on the same. */
  readonly fits: Schemas['Prediction']['fits'] | undefined
}

/** Climb over mass and over altitude; asked for when it is opened. */
export function Curves({ setupId, conditions, fits }: Props) {
  const [isOpen, setOpen] = useState(false)
  const { temperatureC: _left, ...without } = conditions
  return (
    <details class="no-print" onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>Climb over mass and altitude</summary>
      {isOpen && fits !== undefined && (
        <>
          <Curve
            setupId={setupId}
            name="allUpMassKg"
            values={MASSES_KG}
            dimension="mass"
            label="All-up mass"
            conditions={conditions}
            fits={fits}
          />
          <Curve
            setupId={setupId}
            name="elevationM"
            values={ELEVATIONS_M}
            dimension="height"
            label="Elevation, standard air"
            conditions={without}
            fits={fits}
          />
        </>
      )}
    </details>
  )
}

interface CurveProps extends Props {
  readonly name: 'allUpMassKg' | 'elevationM'
  readonly values: readonly number[]
  readonly dimension: Dimension
  readonly label: string
}

function Curve(props: CurveProps) {
  const reading = useReading()
  const { points, done, error, retry } = usePoints(props)
  const total = props.values.length
  if (error !== null) return <Failure error={error} retry={retry} />
  if (done < total)
    return <Progress what={`Climb over ${props.label.toLowerCase()}`} of={[done, total]} />
  const across = reading.unit(props.dimension)
  const up = reading.unit('climbRate')
  const shown = points.map(({ at, estimate, low, high }) => ({
    at: across.toReader(at),
    estimate: up.toReader(estimate),
    low: up.toReader(low),
    high: up.toReader(high),
  }))
  if (shown.length < 2) return <p>The flights do not carry a prediction of its climb yet.</p>
  const write = (value: number) => value.toFixed(up.decimals)
  return (
    <Figure
      caption="Line: the estimate. Band: the mean over pilots and evenings with 95 % certainty."
      draw={(widthPx) =>
        curve(shown, {
          widthPx,
          title: `Climb over ${props.label.toLowerCase()}`,
          acrossAxis: `${props.label}, ${across.sign}`,
          upAxis: `Climb, ${up.sign}`,
          write,
          zero: 0,
        })
      }
    />
  )
}

/** One call for each point, one after the other, so that the service has time for others. */
function usePoints({ setupId, name, values, conditions, fits }: CurveProps) {
  const [attempt, setAttempt] = useState(0)
  const [state, setState] = useState<{
    points: readonly CurvePoint[]
    done: number
    error: Error | null
  }>({ points: [], done: 0, error: null })
  const fitId = Object.values(fits ?? {}).join(',')
  const key = JSON.stringify([setupId, name, conditions, fitId])
  useEffect(() => {
    const abort = new AbortController()
    const points: CurvePoint[] = []
    const collect = async () => {
      for (const [index, at] of values.entries()) {
        const { body } = await get('/v1/setups/{id}/predictions', {
          path: { id: setupId },
          query: { ...conditions, [name]: at, fitId },
          signal: abort.signal,
        })
        const { value, interval95 } = body.predictions.climbRate
        if (value !== null && interval95 !== null) {
          points.push({ at, estimate: value, low: interval95[0], high: interval95[1] })
        }
        setState({ points: [...points], done: index + 1, error: null })
      }
    }
    setState({ points: [], done: 0, error: null })
    collect().catch((error: unknown) => {
      if (!abort.signal.aborted) setState({ points: [], done: 0, error: error as Error })
    })
    return () => abort.abort()
    // The key stands for all of it.
  }, [key, attempt])
  return { ...state, retry: () => setAttempt((n) => n + 1) }
}
