import { line, mark, type Picture, type PictureTable, round, spanText, text } from './picture.ts'
import { ruler, uprightRuler } from './ruler.ts'
import { scaleFor } from './scale.ts'

/** What is expected at one place of the ruler, with its 95 % interval. */
export interface CurvePoint {
  readonly at: number
  readonly estimate: number
  readonly low: number
  readonly high: number
}

export interface CurveOptions {
  readonly widthPx: number
  readonly title: string
  readonly acrossAxis: string
  readonly upAxis: string
  readonly write: (value: number) => string
  /** A line to mark, such as where the setup no longer climbs. */
  readonly zero?: number
}

const LEFT_PX = 52
/** Half of the last number of the ruler. */
const RIGHT_PX = 22
const TOP_PX = 52
const BOTTOM_PX = 14

/** How a quantity follows a condition: a line in its band. */
export function curve(points: readonly CurvePoint[], options: CurveOptions): Picture {
  const { widthPx, zero } = options
  const heightPx = Math.round(Math.min(380, Math.max(260, widthPx * 0.5)))
  const x = scaleFor(
    points.map(({ at }) => at),
    { fromPx: LEFT_PX, toPx: widthPx - RIGHT_PX },
  )
  const y = scaleFor(
    [...points.flatMap(({ low, high }) => [low, high]), ...(zero === undefined ? [] : [zero])],
    {
      fromPx: heightPx - BOTTOM_PX,
      toPx: TOP_PX,
    },
  )
  const spot = (at: number, value: number) => `${round(x.at(at))} ${round(y.at(value))}`
  const upper = points.map(({ at, high }) => spot(at, high))
  const lower = points.map(({ at, low }) => spot(at, low)).reverse()
  const middle = points.map(({ at, estimate }) => spot(at, estimate))
  return {
    widthPx,
    heightPx,
    title: options.title,
    description: describe(points, options),
    table: tableOf(points, options),
    marks: [
      ...ruler(x, { y: TOP_PX, downTo: heightPx - BOTTOM_PX }),
      ...uprightRuler(y, { x: LEFT_PX, rightTo: widthPx - RIGHT_PX }),
      text(`${options.upAxis} ↑`, { x: 4, y: 14, ink: 'ink-muted' }),
      text(`${options.acrossAxis} →`, { x: widthPx - 14, y: 14, ink: 'ink-muted', anchor: 'end' }),
      ...(zero === undefined
        ? []
        : [line([x.at(x.min), y.at(zero)], [x.at(x.max), y.at(zero)], 'ink-zero')]),
      mark('path', { d: `M${[...upper, ...lower].join('L')}Z`, class: 'ink-band' }),
      mark('path', { d: `M${middle.join('L')}`, class: 'ink-curve' }),
    ],
  }
}

function tableOf(
  points: readonly CurvePoint[],
  { upAxis, acrossAxis, write }: CurveOptions,
): PictureTable {
  return {
    heads: [acrossAxis, upAxis, '95 % interval'],
    rows: points.map(({ at, estimate, low, high }) => [
      String(Math.round(at)),
      write(estimate),
      spanText(low, high, write),
    ]),
  }
}

function describe(
  points: readonly CurvePoint[],
  { upAxis, acrossAxis, write }: CurveOptions,
): string {
  const sentences = points.map(
    ({ at, estimate, low, high }) =>
      `At ${Math.round(at)}: ${write(estimate)}, 95 % interval ${write(low)} to ${write(high)}.`,
  )
  return [`${upAxis} over ${acrossAxis}.`, ...sentences].join(' ')
}
