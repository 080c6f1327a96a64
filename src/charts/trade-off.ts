import { probabilityText } from '../core/comparison/probability-text.ts'
import {
  type Mark,
  mark,
  type Picture,
  type PictureTable,
  round,
  spanText,
  text,
} from './picture.ts'
import { ruler, uprightRuler } from './ruler.ts'
import { type Scale, scaleFor } from './scale.ts'

/** A figure with its 95 % interval, in the reader's unit. */
export interface TradeOffFigure {
  readonly estimate: number
  readonly low: number
  readonly high: number
}

/** One setup by what it burns and how it climbs. */
export interface TradeOffPoint {
  readonly name: string
  readonly burn: TradeOffFigure
  readonly climb: TradeOffFigure
  /** By the estimates no other climbs as well on as little fuel. */
  readonly isOnFront: boolean
  /** How likely that is, 0 to 1. */
  readonly chanceOnFront: number
}

export interface TradeOffOptions {
  readonly widthPx: number
  readonly burnAxis: string
  readonly climbAxis: string
  readonly write: (value: number) => string
}

/**
 * The region that holds both truths at once reaches further than the interval of either:
 * √(−2 ln 0.05) against 1.960 standard uncertainties of a normal pair.
 */
const REGION_OVER_INTERVAL = Math.sqrt(-2 * Math.log(0.05)) / 1.96

const LEFT_PX = 52
const TOP_PX = 52
const BOTTOM_PX = 16

/** Climb against fuel: up and to the left is better. The numbers are those of the table beside it. */
export function tradeOff(points: readonly TradeOffPoint[], options: TradeOffOptions): Picture {
  const { widthPx } = options
  const heightPx = Math.round(Math.min(520, Math.max(320, widthPx * 0.7)))
  const x = scaleFor(
    points.flatMap(({ burn }) => reach(burn)),
    { fromPx: LEFT_PX, toPx: widthPx - 14 },
  )
  const y = scaleFor(
    points.flatMap(({ climb }) => reach(climb)),
    { fromPx: heightPx - BOTTOM_PX, toPx: TOP_PX },
  )
  return {
    widthPx,
    heightPx,
    title: 'Climb against fuel',
    description: describe(points, options),
    table: tableOf(points, options),
    marks: [
      ...ruler(x, { y: TOP_PX, downTo: heightPx - BOTTOM_PX }),
      ...uprightRuler(y, { x: LEFT_PX, rightTo: widthPx - 14 }),
      text(`${options.climbAxis} ↑`, { x: 4, y: 14, ink: 'ink-muted' }),
      text(`${options.burnAxis} →`, { x: widthPx - 14, y: 14, ink: 'ink-muted', anchor: 'end' }),
      ...points.map((point) => region(point, x, y)),
      ...frontLine(points, x, y),
      ...points.flatMap((point, index) => spot(point, index, x, y)),
    ],
  }
}

/** The ends of the region in one direction. */
function reach({ estimate, low, high }: TradeOffFigure): [number, number] {
  return [
    estimate - REGION_OVER_INTERVAL * (estimate - low),
    estimate + REGION_OVER_INTERVAL * (high - estimate),
  ]
}

/** Four quarters of ellipses, since an interval may reach further to one side. */
function region({ burn, climb }: TradeOffPoint, x: Scale, y: Scale): Mark {
  const [left, right] = reach(burn).map((value) => round(x.at(value)))
  const [bottom, top] = reach(climb).map((value) => round(y.at(value)))
  const [cx, cy] = [round(x.at(burn.estimate)), round(y.at(climb.estimate))]
  const quarter = (toX: number, toY: number, rx: number, ry: number) =>
    `A${round(Math.abs(rx))} ${round(Math.abs(ry))} 0 0 1 ${toX} ${toY}`
  const d = [
    `M${left} ${cy}`,
    quarter(cx, top!, cx - left!, cy - top!),
    quarter(right!, cy, right! - cx, cy - top!),
    quarter(cx, bottom!, right! - cx, bottom! - cy),
    quarter(left!, cy, cx - left!, bottom! - cy),
  ]
  return mark('path', { d: `${d.join('')}Z`, class: 'ink-region' })
}

/** Stairs: between two points of the front nobody has the better of both. */
function frontLine(points: readonly TradeOffPoint[], x: Scale, y: Scale): Mark[] {
  const front = points
    .filter(({ isOnFront }) => isOnFront)
    .sort((a, b) => a.burn.estimate - b.burn.estimate)
  const steps = front.map(({ burn, climb }, index) => {
    const [px, py] = [round(x.at(burn.estimate)), round(y.at(climb.estimate))]
    return index === 0 ? `M${px} ${py}` : `H${px}V${py}`
  })
  return steps.length === 0 ? [] : [mark('path', { d: steps.join(''), class: 'ink-front' })]
}

function spot({ burn, climb, isOnFront }: TradeOffPoint, index: number, x: Scale, y: Scale) {
  const [cx, cy] = [round(x.at(burn.estimate)), round(y.at(climb.estimate))]
  return [
    mark('circle', { cx, cy, r: 5, class: isOnFront ? 'ink-dot' : 'ink-dot-quiet' }),
    text(String(index + 1), { x: cx + 8, y: cy - 7, ink: 'ink-strong' }),
  ]
}

function tableOf(
  points: readonly TradeOffPoint[],
  { burnAxis, climbAxis, write }: TradeOffOptions,
): PictureTable {
  const figure = ({ estimate, low, high }: TradeOffFigure) =>
    `${write(estimate)} (${spanText(low, high, write)})`
  return {
    heads: ['Setup', climbAxis, burnAxis, 'Not beaten in both'],
    rows: points.map(({ name, burn, climb, chanceOnFront }, index) => [
      `${index + 1}. ${name}`,
      figure(climb),
      figure(burn),
      `${probabilityText(chanceOnFront)} likely`,
    ]),
  }
}

function describe(
  points: readonly TradeOffPoint[],
  { write, burnAxis, climbAxis }: TradeOffOptions,
): string {
  const list = points.map(
    ({ name, burn, climb }, i) =>
      `${i + 1} ${name}: ${climbAxis} ${write(climb.estimate)}, ${burnAxis} ${write(burn.estimate)}.`,
  )
  const best = points.flatMap(({ isOnFront }, index) => (isOnFront ? [index + 1] : [])).join(', ')
  return [`No other has the better of both than: ${best}.`, ...list].join(' ')
}
