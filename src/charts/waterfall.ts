import { fitted } from './names.ts'
import { line, type Mark, mark, type Picture, round, spanText, text } from './picture.ts'
import { ruler } from './ruler.ts'
import { type Scale, scaleFor } from './scale.ts'

/** One step from setup A to setup B: what a part brings, with its 95 % interval; or why that is not known. */
export interface Step {
  readonly label: string
  readonly detail: string
  readonly change: number | null
  readonly low: number | null
  readonly high: number | null
}

export interface WaterfallOptions {
  readonly widthPx: number
  readonly title: string
  readonly axis: string
  readonly write: (value: number) => string
  /** How one change follows another: per cents multiply, decibels add. */
  readonly then: (before: number, change: number) => number
  /** Rows as low as can be read, for paper. */
  readonly isDense?: boolean
  /** The whole change, drawn last. */
  readonly total: Step
}

const TOP_PX = 52
const ROW_PX = 64
const DENSE_ROW_PX = 33
const INSET_PX = 10
/** Where details begin beside the label of a dense row. */
const DETAIL_PX = 110

interface Placed extends Step {
  readonly start: number
  readonly end: number
}

/** Steps that begin where the one before ended, then the whole from nothing. */
export function waterfall(steps: readonly Step[], options: WaterfallOptions): Picture {
  const { widthPx, total, write } = options
  const placed = place(steps, options)
  const all: readonly Placed[] = [...placed, { ...total, start: 0, end: total.change ?? 0 }]
  const ends = all.flatMap((step) => [step.start, step.end, ...intervalEnds(step, options)])
  const scale = scaleFor([0, ...ends], { fromPx: INSET_PX, toPx: widthPx - INSET_PX })
  const rowPx = options.isDense === true ? DENSE_ROW_PX : ROW_PX
  const heightPx = TOP_PX + all.length * rowPx + 10
  const zero = scale.at(0)
  return {
    widthPx,
    heightPx,
    title: options.title,
    description: all.map((step) => sentence(step, write)).join(' '),
    table: {
      heads: ['Part', options.axis, '95 % interval', 'From → to'],
      rows: all.map(({ label, change, low, high, detail }) => [
        label,
        change === null ? '–' : write(change),
        spanText(low, high, write),
        detail,
      ]),
    },
    marks: [
      text(options.axis, { x: INSET_PX, y: 14, ink: 'ink-muted' }),
      ...ruler(scale, { y: TOP_PX, downTo: heightPx - 8 }),
      line([zero, TOP_PX], [zero, heightPx - 8], 'ink-zero'),
      ...all.map((step, index) => row(step, TOP_PX + index * rowPx, { scale, options })),
    ],
  }
}

function place(steps: readonly Step[], { then }: WaterfallOptions): Placed[] {
  let reached = 0
  return steps.map((step) => {
    const start = reached
    if (step.change !== null) reached = then(start, step.change)
    return { ...step, start, end: reached }
  })
}

function intervalEnds(step: Placed, { then }: WaterfallOptions): number[] {
  if (step.low === null || step.high === null) return []
  return [then(step.start, step.low), then(step.start, step.high)]
}

function row(
  step: Placed,
  top: number,
  { scale, options }: { readonly scale: Scale; readonly options: WaterfallOptions },
): Mark {
  const { widthPx, write, isDense = false } = options
  const y = top + (isDense ? 26 : 46)
  const nameY = top + (isDense ? 14 : 18)
  const detail = isDense ? { x: DETAIL_PX, y: nameY } : { x: INSET_PX, y: top + 33 }
  const [from, to] = [scale.at(step.start), scale.at(step.end)].sort((a, b) => a - b)
  const [low, high] = intervalEnds(step, options)
  const value = step.change === null ? '–' : write(step.change)
  const bar = { x: round(from!), y: y - 6, width: round(Math.max(1, to! - from!)), height: 12 }
  return mark(
    'g',
    {},
    mark('title', {}, sentence(step, write)),
    text(step.label, { x: INSET_PX, y: nameY, ink: 'ink-strong' }),
    text(fitted(step.detail, widthPx - detail.x - 80, 12), { ...detail, ink: 'ink-muted' }),
    text(value, { x: widthPx - INSET_PX, y: nameY, ink: 'ink-strong', anchor: 'end' }),
    ...(step.change === null ? [] : [mark('rect', { ...bar, class: 'ink-band' })]),
    ...(low === undefined || high === undefined
      ? []
      : [line([scale.at(low), y], [scale.at(high), y], 'ink-bar')]),
    ...(step.change === null
      ? []
      : [mark('circle', { cx: round(scale.at(step.end)), cy: y, r: 5, class: 'ink-dot' })]),
  )
}

function sentence(
  { label, detail, change, low, high }: Step,
  write: (v: number) => string,
): string {
  if (change === null) return `${label}: no figure (${detail}).`
  const interval =
    low === null || high === null ? '' : `, 95 % interval ${write(low)} to ${write(high)}`
  return `${label} (${detail}): ${write(change)}${interval}.`
}
