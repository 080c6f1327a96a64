/** Mean width of a character over the size of the type; a little wide, so that nothing is cut. */
const CHARACTER_RATIO = 0.54

/** The engine of a setup's name, and the rest of it. */
export function splitName(name: string): readonly [head: string, rest: string] {
  const [head = name, ...rest] = name.split(' + ')
  return [head, rest.join(' + ')]
}

/** A text that fits, with an ellipsis where it was too long. */
export function fitted(content: string, widthPx: number, sizePx = 13): string {
  const room = Math.max(4, Math.floor(widthPx / (sizePx * CHARACTER_RATIO)))
  return content.length <= room ? content : `${content.slice(0, room - 1).trimEnd()}…`
}
