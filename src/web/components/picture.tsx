import { h, type VNode } from 'preact'
import { useEffect, useRef, useState } from 'preact/hooks'

import type { Mark, Picture } from '../../charts/picture.ts'
import { FiguresTable } from './figures-table.tsx'

interface Props {
  /** Draws for a width, lower for paper; pure. */
  readonly draw: (widthPx: number, isPaper: boolean) => Picture
  readonly caption: string
  /** In place of the table of the picture: a fuller one, or null where its figures stand beside it. */
  readonly twin?: preact.ComponentChildren
}

/** On paper there is one width. */
const PRINT_PX = 680

/** A chart at the width there is, with its caption and its table twin. */
export function Figure({ draw, caption, twin }: Props) {
  const box = useRef<HTMLDivElement>(null)
  const [{ widthPx, isPaper }, setSheet] = useState({ widthPx: 0, isPaper: false })
  useEffect(() => {
    const measure = () => {
      const width = Math.floor(box.current?.clientWidth ?? 0)
      setSheet({ widthPx: width, isPaper: false })
    }
    const observer = new ResizeObserver(measure)
    if (box.current !== null) observer.observe(box.current)
    measure()
    const toPaper = () => setSheet({ widthPx: PRINT_PX, isPaper: true })
    addEventListener('beforeprint', toPaper)
    addEventListener('afterprint', measure)
    return () => {
      observer.disconnect()
      removeEventListener('beforeprint', toPaper)
      removeEventListener('afterprint', measure)
    }
  }, [])
  const picture = widthPx > 0 ? draw(Math.max(280, widthPx), isPaper) : null
  return (
    <figure>
      {caption !== '' && <figcaption>{caption}</figcaption>}
      <div ref={box}>{picture !== null && <Svg picture={picture} />}</div>
      {twin === undefined ? picture !== null && <Twin picture={picture} /> : twin}
    </figure>
  )
}

/** The same figures to read, a press away. */
function Twin({ picture }: { readonly picture: Picture }) {
  const { title, table } = picture
  return (
    <details class="twin no-print">
      <summary>The same as a table</summary>
      <FiguresTable
        label={`${title}, as a table`}
        heads={table.heads}
        rows={table.rows.map(([head, ...cells], index) => ({ key: `${index}`, head, cells }))}
      />
    </details>
  )
}

function Svg({ picture }: { readonly picture: Picture }) {
  const { widthPx, heightPx, title, description, marks } = picture
  return (
    <svg
      class="picture"
      width={widthPx}
      height={heightPx}
      viewBox={`0 0 ${widthPx} ${heightPx}`}
      role="img"
      aria-label={`${title}. ${description}`}
    >
      {marks.map(element)}
    </svg>
  )
}

function element({ tag, attributes, children }: Mark): VNode<object> {
  return h<object>(
    tag,
    { ...attributes },
    children.map((child) => (typeof child === 'string' ? child : element(child))),
  )
}
