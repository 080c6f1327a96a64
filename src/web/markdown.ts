/** A piece of text: plain, or one that stands out. */
export type Inline =
  | { readonly kind: 'text' | 'code' | 'strong' | 'em'; readonly text: string }
  | { readonly kind: 'link'; readonly text: string; readonly href: string }

export type Block =
  | { readonly kind: 'heading'; readonly level: number; readonly content: readonly Inline[] }
  | { readonly kind: 'paragraph'; readonly content: readonly Inline[] }
  | { readonly kind: 'code'; readonly text: string }
  | { readonly kind: 'list'; readonly items: readonly (readonly Inline[])[] }
  | {
      readonly kind: 'table'
      readonly heads: readonly (readonly Inline[])[]
      readonly rows: readonly (readonly (readonly Inline[])[])[]
    }

const TOKENS = /`([^`]+)`|\*\*([^*]+)\*\*|\[([^\]]+)\]\(([^)\s]+)\)|(?<![\w*])\*([^*\s][^*]*)\*/g

/** The little of Markdown that our own documents use. Not for text of others. */
export function blocksOf(source: string): Block[] {
  const chunks = source.replaceAll('\r', '').split('\n\n')
  return joinCode(chunks).flatMap((chunk) => (chunk.trim() === '' ? [] : blocksIn(chunk)))
}

/** Blank lines inside a fence do not end it. */
function joinCode(chunks: readonly string[]): string[] {
  const joined: string[] = []
  for (const chunk of chunks) {
    const last = joined.at(-1)
    const isOpen = last !== undefined && (last.match(/^```/gm)?.length ?? 0) % 2 === 1
    if (isOpen) joined[joined.length - 1] = `${last}\n\n${chunk}`
    else joined.push(chunk)
  }
  return joined
}

function blocksIn(chunk: string): Block[] {
  const lines = chunk.replace(/^\n+|\s+$/g, '').split('\n')
  const [first = ''] = lines
  const heading = /^(#{1,4}) (.*)$/.exec(first)
  if (heading !== null) {
    const head: Block = {
      kind: 'heading',
      level: heading[1]!.length,
      content: inlines(heading[2]!),
    }
    return lines.length === 1 ? [head] : [head, ...blocksIn(lines.slice(1).join('\n'))]
  }
  if (first.startsWith('```')) {
    return [{ kind: 'code', text: lines.filter((line) => !line.startsWith('```')).join('\n') }]
  }
  if (lines.every((line) => /^ {4}/.test(line) || line === '')) {
    return [{ kind: 'code', text: lines.map((line) => line.slice(4)).join('\n') }]
  }
  if (first.startsWith('|')) return [tableOf(lines)]
  if (/^(?:[-*]|\d+\.) /.test(first)) return [{ kind: 'list', items: itemsOf(lines) }]
  return [{ kind: 'paragraph', content: inlines(lines.join(' ')) }]
}

function tableOf(lines: readonly string[]): Block {
  const cells = (line: string) =>
    line
      .replace(/^\||\|\s*$/g, '')
      .split(/(?<!\\)\|/)
      .map((cell) => inlines(cell.trim().replaceAll('\\|', '|')))
  return { kind: 'table', heads: cells(lines[0]!), rows: lines.slice(2).map(cells) }
}

function itemsOf(lines: readonly string[]): Inline[][] {
  const items: string[] = []
  for (const line of lines) {
    const item = /^(?:[-*]|\d+\.) (.*)$/.exec(line)
    if (item !== null) items.push(item[1]!)
    else items[items.length - 1] += ` ${line.trim()}`
  }
  return items.map(inlines)
}

function inlines(text: string): Inline[] {
  const found: Inline[] = []
  let from = 0
  for (const match of text.matchAll(TOKENS)) {
    if (match.index > from) found.push({ kind: 'text', text: text.slice(from, match.index) })
    const [, code, strong, label, href, em] = match
    if (code !== undefined) found.push({ kind: 'code', text: code })
    else if (strong !== undefined) found.push({ kind: 'strong', text: strong })
    else if (label !== undefined) found.push({ kind: 'link', text: label, href: href! })
    else found.push({ kind: 'em', text: em! })
    from = match.index + match[0].length
  }
  if (from < text.length) found.push({ kind: 'text', text: text.slice(from) })
  return found
}
