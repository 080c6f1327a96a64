import { line, mark, type Picture, round, spanText } from './picture.ts'
import { ruler } from './ruler.ts'
import { scaleFor } from './scale.ts'

export interface GaugeOptions {
  readonly widthPx: number
  readonly title: string
  readonly write: (value: number) => string
}

const HEIGHT_PX = 64
const RULER_PX = 34
const INSET_PX = 16
/** The ruler reaches this many half intervals to each side, so that the band keeps its size in sight. */
const REACH = 2.5

/** One value under a hairline, its 95 % interval as a band on the ruler. */
export function gauge(
  value: { readonly estimate: number; readonly low: number; readonly high: number },
  { widthPx, title, write }: GaugeOptions,
): Picture {
  const { estimate, low, high } = value
  const half = Math.max((high - low) / 2, Math.abs(estimate) * 1e-3, 1e-6)
  const ends = [estimate - REACH * half, estimate + REACH * half]
  const scale = scaleFor(ends, { fromPx: INSET_PX, toPx: widthPx - INSET_PX })
  const x = scale.at(estimate)
  const band = {
    x: round(scale.at(low)),
    y: RULER_PX,
    width: round(Math.max(2, scale.at(high) - scale.at(low))),
    height: 14,
    class: 'ink-band',
  }
  return {
    widthPx,
    heightPx: HEIGHT_PX,
    title,
    description: `${write(estimate)}, 95 % interval ${write(low)} to ${write(high)}.`,
    table: {
      heads: [title, '95 % interval'],
      rows: [[write(estimate), spanText(low, high, write)]],
    },
    marks: [
      mark('rect', band),
      ...ruler(scale, { y: RULER_PX }),
      line([x, 4], [x, HEIGHT_PX - 6], 'ink-hairline'),
    ],
  }
}
