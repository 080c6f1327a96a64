import { fitted, splitName } from './names.ts'
import {
  line,
  type Mark,
  mark,
  type Picture,
  type PictureTable,
  round,
  spanText,
  text,
} from './picture.ts'
import { ruler } from './ruler.ts'
import { positionScale, type Scale, scaleFor } from './scale.ts'

/** One line of a forest: an estimate with its 95 % interval, or why there is none. */
export interface ForestRow {
  readonly name: string
  readonly estimate: number | null
  readonly low: number | null
  readonly high: number | null
  /** In words beside the name: what is refused, what to look out for. */
  readonly note?: string
  /** How it is drawn: quiet for what is not resolved, odd for what stands out, unsafe for what must not be flown. */
  readonly tone?: 'plain' | 'quiet' | 'odd' | 'unsafe'
}

export interface ForestOptions {
  readonly widthPx: number
  readonly title: string
  /** Quantity and unit, under the ruler's name. */
  readonly axis: string
  /** What a row is about, as the head of its column in the table. */
  readonly rowsAre?: string
  /** A value as it is written out. */
  readonly write: (value: number) => string
  /** A line to compare with, such as no difference. */
  readonly zero?: number
  /** Differences inside it do not matter. */
  readonly margin?: readonly [number, number]
  /** Rows as low as can be read, for paper. */
  readonly isDense?: boolean
  /** Whole positions from 1 to this in place of a measured scale. */
  readonly positions?: number
}

const WIDE_PX = 620
const TOP_PX = 52
const VALUE_PX = 64
const INSET_PX = 10
const NOTE_PX = 15
const DENSE_ROW_PX = 26
/** A bold character of the name, a little wide. */
const DENSE_CHARACTER_PX = 8

const NOTE_INKS = {
  plain: 'ink-muted',
  quiet: 'ink-muted',
  odd: 'ink-odd',
  unsafe: 'ink-warning',
} as const

interface Layout {
  readonly isWide: boolean
  readonly isDense: boolean
  readonly labelPx: number
  readonly rowPx: number
  /** Where the bar of a row lies, from the top of the row. */
  readonly barPx: number
  readonly heightPx: number
  readonly scale: Scale
}

/** Estimates with intervals on one ruler, in the order given. Pure: the same rows, the same picture. */
export function forest(rows: readonly ForestRow[], options: ForestOptions): Picture {
  const layout = layOut(rows, options)
  const { scale, heightPx, labelPx } = layout
  const marks: Mark[] = []
  if (options.margin !== undefined) marks.push(marginBand(options.margin, layout))
  marks.push(...ruler(scale, { y: TOP_PX, downTo: heightPx - 8 }))
  // A long one begins further left rather than being cut off.
  const axis = fitted(options.axis, options.widthPx, 12)
  const hasRoom = fitted(axis, options.widthPx - labelPx, 12) === axis
  marks.push(text(axis, { x: hasRoom ? labelPx : 0, y: 14, ink: 'ink-muted' }))
  if (options.zero !== undefined) {
    const x = scale.at(options.zero)
    marks.push(line([x, TOP_PX], [x, heightPx - 8], 'ink-zero'))
  }
  rows.forEach((row, index) => {
    marks.push(drawRow(row, TOP_PX + index * layout.rowPx, { layout, options }))
  })
  return {
    widthPx: options.widthPx,
    heightPx,
    title: options.title,
    description: describeForest(rows, options),
    table: tableOf(rows, options),
    marks,
  }
}

/** The forest in sentences. */
export function describeForest(
  rows: readonly ForestRow[],
  { axis, write }: Pick<ForestOptions, 'axis' | 'write'>,
): string {
  const sentences = rows.map(({ name, estimate, low, high, note }) => {
    const figure =
      estimate === null || low === null || high === null
        ? 'no figure'
        : `${write(estimate)}, 95 % interval ${write(low)} to ${write(high)}`
    return `${name}: ${figure}${note === undefined ? '' : ` (${note})`}.`
  })
  return [`${axis}.`, ...sentences].join(' ')
}

function tableOf(
  rows: readonly ForestRow[],
  { axis, write, rowsAre = 'Setup' }: ForestOptions,
): PictureTable {
  const isNoted = rows.some(({ note }) => note !== undefined)
  return {
    heads: [rowsAre, axis, '95 % interval', ...(isNoted ? ['Remark'] : [])],
    rows: rows.map(({ name, estimate, low, high, note }) => [
      name,
      estimate === null ? '–' : write(estimate),
      spanText(low, high, write),
      ...(isNoted ? [note ?? ''] : []),
    ]),
  }
}

function layOut(rows: readonly ForestRow[], options: ForestOptions): Layout {
  const { widthPx, zero, margin, positions } = options
  const isWide = widthPx >= WIDE_PX
  const isDense = isWide && options.isDense === true
  const labelPx = isWide ? Math.round(widthPx * (isDense ? 0.5 : 0.42)) : INSET_PX
  // A note stands under the whole name: two setups may differ in the second line only.
  const notePx = rows.some(hasThreeLines) ? NOTE_PX : 0
  const rowPx = isDense ? DENSE_ROW_PX : (isWide ? 46 : 70) + notePx
  const span = { fromPx: labelPx, toPx: widthPx - (isWide ? VALUE_PX : 0) - INSET_PX }
  const values = rows.flatMap(({ estimate, low, high }) => [estimate, low, high])
  const shown = [...values, zero, ...(margin ?? [])].filter((v) => v !== null && v !== undefined)
  const scale = positions === undefined ? scaleFor(shown, span) : positionScale(positions, span)
  const barPx = isDense ? 12 : isWide ? 24 : 52 + notePx
  const heightPx = TOP_PX + rows.length * rowPx + 12
  return { isWide, isDense, labelPx, rowPx, barPx, heightPx, scale }
}

function hasThreeLines({ name, note }: ForestRow): boolean {
  return note !== undefined && splitName(name)[1] !== ''
}

function marginBand([low, high]: readonly [number, number], { scale, heightPx }: Layout): Mark {
  const x = scale.at(low)
  const width = round(scale.at(high) - x)
  const height = heightPx - TOP_PX - 8
  return mark('rect', { x: round(x), y: TOP_PX, width, height, class: 'ink-margin' })
}

function drawRow(
  row: ForestRow,
  top: number,
  { layout, options }: { readonly layout: Layout; readonly options: ForestOptions },
): Mark {
  const { isWide, isDense } = layout
  const value = row.estimate === null ? '–' : options.write(row.estimate)
  const valueY = top + (isDense ? 16 : isWide ? 28 : 20)
  return mark(
    'g',
    {},
    mark('title', {}, describeForest([row], options)),
    ...(isDense ? denseName(row, top, layout) : nameLines(row, top, { layout, options })),
    text(value, { x: options.widthPx - INSET_PX, y: valueY, ink: 'ink-strong', anchor: 'end' }),
    ...interval(row, top + layout.barPx, layout),
  )
}

/** The engine, the rest of the name, and what is to be said of it, each on a line. */
function nameLines(
  row: ForestRow,
  top: number,
  { layout, options }: { readonly layout: Layout; readonly options: ForestOptions },
): Mark[] {
  const { isWide, labelPx } = layout
  const [head, rest] = splitName(row.name)
  const namePx = isWide ? labelPx - 18 : options.widthPx - VALUE_PX - 2 * INSET_PX
  const restPx = isWide ? namePx : options.widthPx - 2 * INSET_PX
  const x = isWide ? 0 : INSET_PX
  const y = top + 20
  const noteY = rest === '' ? y + 16 : y + 16 + NOTE_PX
  const ink = NOTE_INKS[row.tone ?? 'plain']
  return [
    text(fitted(head, namePx), { x, y, ink: 'ink-strong' }),
    ...(rest === '' ? [] : [text(fitted(rest, restPx, 12), { x, y: y + 16, ink: 'ink-muted' })]),
    ...(row.note === undefined ? [] : [text(fitted(row.note, restPx, 12), { x, y: noteY, ink })]),
  ]
}

/** The same on two lines: what is to be said stands behind the engine. */
function denseName({ name, note, tone = 'plain' }: ForestRow, top: number, { labelPx }: Layout) {
  const [head, rest] = splitName(name)
  const ink = NOTE_INKS[tone]
  const room = labelPx - 24 - head.length * DENSE_CHARACTER_PX
  const said = note === undefined || room < 60 ? [] : [fitted(note, room, 12)]
  return [
    mark(
      'text',
      { x: 0, y: top + 11, class: 'ink-strong', 'text-anchor': 'start' },
      head,
      ...said.map((words) => mark('tspan', { class: ink, dx: 8 }, words)),
    ),
    text(fitted(rest, labelPx - 18, 12), { x: 0, y: top + 23, ink: 'ink-muted' }),
  ]
}

function interval(row: ForestRow, y: number, { scale }: Layout): Mark[] {
  const { estimate, low, high, tone = 'plain' } = row
  if (estimate === null || low === null || high === null) return []
  const suffix = tone === 'plain' ? '' : `-${tone}`
  const cx = round(scale.at(estimate))
  const whole = low === high ? 0.12 : 0
  return [
    line([scale.at(low - whole), y], [scale.at(high + whole), y], `ink-bar${suffix}`),
    mark('circle', { cx, cy: y, r: 5.5, class: `ink-dot${suffix}` }),
  ]
}
