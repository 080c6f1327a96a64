import changes from '../../core/CHANGELOG.md?raw'
import method from '../../core/METHOD.md?raw'
import { Table } from '../components/table.tsx'
import { type Block, blocksOf, type Inline } from '../markdown.ts'

/** How it is computed, in the words that stand beside the code. */
export function MethodPage() {
  return (
    <article class="prose">
      <Document source={method} />
      <Document source={changes} below={1} />
    </article>
  )
}

function Document({ source, below = 0 }: { readonly source: string; readonly below?: number }) {
  return (
    <>
      {blocksOf(source).map((block, index) => (
        <Shown key={`${index} ${block.kind}`} block={block} below={below} />
      ))}
    </>
  )
}

function Shown({ block, below }: { readonly block: Block; readonly below: number }) {
  switch (block.kind) {
    case 'heading': {
      const Heading = `h${Math.min(6, block.level + below)}` as 'h1'
      return <Heading>{block.content.map(inline)}</Heading>
    }
    case 'paragraph':
      return <p>{block.content.map(inline)}</p>
    case 'code':
      return (
        // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reachable by key
        <pre tabIndex={0}>{block.text}</pre>
      )
    case 'list':
      return (
        <ul>
          {block.items.map((item, index) => (
            <li key={`${index}`}>{item.map(inline)}</li>
          ))}
        </ul>
      )
    case 'table':
      return (
        <Table
          label="Table"
          heads={block.heads.map((head) => head.map(({ text }) => text).join(''))}
        >
          {block.rows.map((row, index) => (
            <tr key={`${index}`}>
              {row.map((cell, column) => (
                <td key={`${column}`}>{cell.map(inline)}</td>
              ))}
            </tr>
          ))}
        </Table>
      )
  }
}

function inline(piece: Inline, index: number) {
  const key = `${index} ${piece.text}`
  switch (piece.kind) {
    case 'code':
      return <code key={key}>{piece.text}</code>
    case 'strong':
      return <strong key={key}>{piece.text}</strong>
    case 'em':
      return <em key={key}>{piece.text}</em>
    case 'link':
      return /^https?:/.test(piece.href) ? (
        <a key={key} href={piece.href}>
          {piece.text}
        </a>
      ) : (
        <span key={key}>{piece.text}</span>
      )
    case 'text':
      return piece.text
  }
}
