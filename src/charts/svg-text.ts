import type { Mark, Picture } from './picture.ts'

const PAPER = '#ffffff'
const INK = '#17242c'
const MUTED = '#55636b'
const FONT = 'system-ui, sans-serif'

const TEXT = { 'font-family': FONT, 'font-size': 13, fill: INK } as const

/** How the classes look on white paper, where no style sheet reaches: in forums and reports. */
const INKS: Readonly<Record<string, Readonly<Record<string, string | number>>>> = {
  'ink-text': TEXT,
  'ink-strong': { ...TEXT, 'font-weight': 600 },
  'ink-muted': { ...TEXT, 'font-size': 12, fill: MUTED },
  'ink-warning': { ...TEXT, 'font-size': 12, 'font-weight': 700, fill: '#9b1c12' },
  'ink-odd': { ...TEXT, 'font-size': 12, 'font-weight': 700, fill: '#a8430a' },
  'ink-rule': { stroke: '#dfe3e1' },
  'ink-axis': { stroke: INK },
  'ink-tick': { stroke: INK },
  'ink-zero': { stroke: INK, 'stroke-dasharray': '3 3' },
  'ink-margin': { fill: '#e9ecea' },
  'ink-bar': { stroke: '#35617c', 'stroke-width': 4 },
  'ink-dot': { fill: INK },
  'ink-bar-quiet': { stroke: '#a9b4b9', 'stroke-width': 4 },
  'ink-dot-quiet': { fill: PAPER, stroke: MUTED, 'stroke-width': 1.5 },
  'ink-bar-odd': { stroke: '#a8430a', 'stroke-width': 4 },
  'ink-dot-odd': { fill: PAPER, stroke: '#a8430a', 'stroke-width': 2.5 },
  'ink-bar-unsafe': { stroke: '#9b1c12', 'stroke-width': 4, 'stroke-dasharray': '2 3' },
  'ink-dot-unsafe': { fill: PAPER, stroke: '#9b1c12', 'stroke-width': 2 },
  'ink-region': { fill: '#35617c', 'fill-opacity': 0.12, stroke: '#35617c' },
  'ink-front': { fill: 'none', stroke: '#b0480b', 'stroke-width': 2 },
  'ink-band': { fill: '#35617c', 'fill-opacity': 0.18 },
  'ink-hairline': { stroke: '#b0480b', 'stroke-width': 2 },
  'ink-curve': { fill: 'none', stroke: '#35617c', 'stroke-width': 2 },
}

/** The picture as a file of its own: no style sheet, no script, nothing from elsewhere. */
export function svgText({ widthPx, heightPx, title, description, marks }: Picture): string {
  const size = `width="${widthPx}" height="${heightPx}" viewBox="0 0 ${widthPx} ${heightPx}"`
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" ${size} role="img">`,
    `<title>${escaped(title)}</title><desc>${escaped(description)}</desc>`,
    `<rect width="${widthPx}" height="${heightPx}" fill="${PAPER}"/>`,
    ...marks.map(elementText),
    '</svg>\n',
  ].join('')
}

function elementText({ tag, attributes, children }: Mark): string {
  const { class: ink, ...own } = attributes
  const all = { ...own, ...(typeof ink === 'string' ? INKS[ink] : {}) }
  const head = Object.entries(all).map(([name, value]) => ` ${name}="${escaped(String(value))}"`)
  const inner = children.map((child) =>
    typeof child === 'string' ? escaped(child) : elementText(child),
  )
  return `<${tag}${head.join('')}>${inner.join('')}</${tag}>`
}

const ESCAPES: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
}

/** Text for XML; control characters, which XML cannot hold, are left out. */
function escaped(content: string): string {
  // biome-ignore lint/suspicious/noControlCharactersInRegex: these are what must go
  const clean = content.replace(/[\u0000-\u0008\u000b\u000c\u000e-\u001f\ufffe\uffff]/g, '')
  return clean.replace(/[&<>"]/g, (character) => ESCAPES[character]!)
}
