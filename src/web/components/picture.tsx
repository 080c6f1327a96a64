import { h, type VNode } from 'preact'
import { useEffect, useRef, useState } from 'preact/hooks'

import type { Mark, Picture } from '../../charts/picture.ts'

interface Props {
  /** Draws for a width; pure. */
  readonly draw: (widthPx: number) => Picture
  readonly caption: string
  /** The table twin, or what else belongs to the picture. */
  readonly children?: preact.ComponentChildren
}

/** On paper there is one width. */
const PRINT_PX = 680

/** A chart at the width there is, with its caption and its table twin. */
export function Figure({ draw, caption, children }: Props) {
  const box = useRef<HTMLDivElement>(null)
  const [widthPx, setWidthPx] = useState(0)
  useEffect(() => {
    const measure = () => setWidthPx(Math.floor(box.current?.clientWidth ?? 0))
    const observer = new ResizeObserver(measure)
    if (box.current !== null) observer.observe(box.current)
    measure()
    const toPaper = () => setWidthPx(PRINT_PX)
    addEventListener('beforeprint', toPaper)
    addEventListener('afterprint', measure)
    return () => {
      observer.disconnect()
      removeEventListener('beforeprint', toPaper)
      removeEventListener('afterprint', measure)
    }
  }, [])
  return (
    <figure>
      <figcaption>{caption}</figcaption>
      <div ref={box}>{widthPx > 0 && <Svg picture={draw(Math.max(280, widthPx))} />}</div>
      {children}
    </figure>
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
