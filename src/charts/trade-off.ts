import { type Mark, mark, type Picture, round, text } from './picture.ts'
import { ruler, uprightRuler } from './ruler.ts'
import { type Scale, scaleFor } from './scale.ts'

/** One setup by what it burns and how it climbs, each with its standard uncertainty, in one unit each. */
export interface TradeOffPoint {
  readonly name: string
  readonly burn: number
  readonly burnU: number
  readonly climb: number
  readonly climbU: number
  readonly isUnsafe: boolean
}

export interface TradeOffOptions {
  readonly widthPx: number
  readonly burnAxis: string
  readonly climbAxis: string
  readonly write: (value: number) => string
}

/** Half-axes of the ellipse that holds 95 % of a normal pair, in standard uncertainties: √(−2 ln 0.05). */
const REGION = Math.sqrt(-2 * Math.log(0.05))

const LEFT_PX = 52
const TOP_PX = 52
const BOTTOM_PX = 16

/**
 * Points that no other beats in both: none burns less and climbs better at once. Unsafe ones are
 * out of the running.
 *
 * @returns indices, by burn
 */
export function paretoFront(points: readonly TradeOffPoint[]): number[] {
  const runners = points.map((point, index) => ({ ...point, index })).filter((p) => !p.isUnsafe)
  return runners
    .filter(
      (p) =>
        !runners.some(
          (q) => q.burn <= p.burn && q.climb >= p.climb && (q.burn < p.burn || q.climb > p.climb),
        ),
    )
    .sort((a, b) => a.burn - b.burn)
    .map(({ index }) => index)
}

/** Climb against fuel: up and to the left is better. The numbers are those of the list beside it. */
export function tradeOff(points: readonly TradeOffPoint[], options: TradeOffOptions): Picture {
  const { widthPx } = options
  const heightPx = Math.round(Math.min(520, Math.max(320, widthPx * 0.7)))
  const bounds = (value: number, u: number) => [value - REGION * u, value + REGION * u]
  const x = scaleFor(
    points.flatMap((p) => bounds(p.burn, p.burnU)),
    { fromPx: LEFT_PX, toPx: widthPx - 14 },
  )
  const y = scaleFor(
    points.flatMap((p) => bounds(p.climb, p.climbU)),
    { fromPx: heightPx - BOTTOM_PX, toPx: TOP_PX },
  )
  const front = paretoFront(points)
  return {
    widthPx,
    heightPx,
    title: 'Climb against fuel',
    description: describe(points, front, options),
    marks: [
      ...ruler(x, { y: TOP_PX, downTo: heightPx - BOTTOM_PX }),
      ...uprightRuler(y, { x: LEFT_PX, rightTo: widthPx - 14 }),
      text(`${options.climbAxis} ↑`, { x: 4, y: 14, ink: 'ink-muted' }),
      text(`${options.burnAxis} →`, { x: widthPx - 14, y: 14, ink: 'ink-muted', anchor: 'end' }),
      ...points.map((point) => region(point, x, y)),
      frontLine(
        front.map((index) => points[index]!),
        x,
        y,
      ),
      ...points.flatMap((point, index) => spot(point, index, x, y)),
    ],
  }
}

function region({ burn, burnU, climb, climbU }: TradeOffPoint, x: Scale, y: Scale): Mark {
  return mark('ellipse', {
    cx: round(x.at(burn)),
    cy: round(y.at(climb)),
    rx: round(Math.abs(x.at(burn + REGION * burnU) - x.at(burn))),
    ry: round(Math.abs(y.at(climb + REGION * climbU) - y.at(climb))),
    class: 'ink-region',
  })
}

/** Stairs: between two points of the front nobody has the better of both. */
function frontLine(front: readonly TradeOffPoint[], x: Scale, y: Scale): Mark {
  const steps = front.map(({ burn, climb }, index) => {
    const [px, py] = [round(x.at(burn)), round(y.at(climb))]
    return index === 0 ? `M${px} ${py}` : `H${px}V${py}`
  })
  return mark('path', { d: steps.join(''), class: 'ink-front' })
}

function spot(point: TradeOffPoint, index: number, x: Scale, y: Scale): Mark[] {
  const [cx, cy] = [round(x.at(point.burn)), round(y.at(point.climb))]
  return [
    mark('circle', { cx, cy, r: 5, class: point.isUnsafe ? 'ink-dot-unsafe' : 'ink-dot' }),
    text(String(index + 1), { x: cx + 8, y: cy - 7, ink: 'ink-strong' }),
  ]
}

function describe(
  points: readonly TradeOffPoint[],
  front: readonly number[],
  { write, burnAxis, climbAxis }: TradeOffOptions,
): string {
  const list = points.map(
    ({ name, burn, climb }, i) =>
      `${i + 1} ${name}: ${climbAxis} ${write(climb)}, ${burnAxis} ${write(burn)}.`,
  )
  const best = front.map((index) => index + 1).join(', ')
  return [`No other has the better of both than: ${best}.`, ...list].join(' ')
}
