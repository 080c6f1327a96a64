/** One element of a picture. Classes carry the look: the page styles them, {@link svgText} inks them. */
export interface Mark {
  readonly tag: string
  readonly attributes: Readonly<Record<string, string | number>>
  readonly children: readonly (Mark | string)[]
}

/** The figures of a picture as a table: each row begins with what it is about. */
export interface PictureTable {
  readonly heads: readonly string[]
  readonly rows: readonly (readonly string[])[]
}

/** A drawing, independent of where it is shown. Sizes in CSS pixels. */
export interface Picture {
  readonly widthPx: number
  readonly heightPx: number
  /** What is shown, in a few words. */
  readonly title: string
  /** What there is to see, in sentences: for those who do not see it. */
  readonly description: string
  /** The same figures to read, line by line. */
  readonly table: PictureTable
  readonly marks: readonly Mark[]
}

/** Shorthand for a mark. */
export function mark(
  tag: string,
  attributes: Mark['attributes'],
  ...children: readonly (Mark | string)[]
): Mark {
  return { tag, attributes, children }
}

/** Text at a place; `anchor` as SVG has it. */
export function text(
  content: string,
  at: { readonly x: number; readonly y: number; readonly ink?: string; readonly anchor?: string },
): Mark {
  const { x, y, ink = 'ink-text', anchor = 'start' } = at
  return mark('text', { x: round(x), y: round(y), class: ink, 'text-anchor': anchor }, content)
}

/** A straight line. */
export function line(
  from: readonly [number, number],
  to: readonly [number, number],
  ink: string,
): Mark {
  const [x1, y1] = from.map(round)
  const [x2, y2] = to.map(round)
  return mark('line', { x1: x1!, y1: y1!, x2: x2!, y2: y2!, class: ink })
}

/** An interval in words; a dash where there is none. */
export function spanText(
  low: number | null,
  high: number | null,
  write: (value: number) => string,
): string {
  if (low === null || high === null) return '–'
  return write(low) === write(high) ? write(low) : `${write(low)} to ${write(high)}`
}

/** To a tenth of a pixel: nobody sees more, and the text of a picture stays short. */
export function round(px: number): number {
  return Math.round(px * 10) / 10
}
