import { readFileSync } from 'node:fs'

import { describe, expect, it } from 'vitest'

import { blocksOf, type Inline } from '../../src/web/markdown.ts'

const text = (words: string): Inline => ({ kind: 'text', text: words })

describe('Markdown', () => {
  it('has headings with their level, and the paragraph that follows without a gap', () => {
    expect(blocksOf('## The `fit`\nOne line\nand the next.')).toEqual([
      { kind: 'heading', level: 2, content: [text('The '), { kind: 'code', text: 'fit' }] },
      { kind: 'paragraph', content: [text('One line and the next.')] },
    ])
  })

  it('tells code, strong, emphasis and links apart from plain text', () => {
    const [paragraph] = blocksOf('a `b` **c** *d* [e](#f) g')
    expect(paragraph).toEqual({
      kind: 'paragraph',
      content: [
        text('a '),
        { kind: 'code', text: 'b' },
        text(' '),
        { kind: 'strong', text: 'c' },
        text(' '),
        { kind: 'em', text: 'd' },
        text(' '),
        { kind: 'link', text: 'e', href: '#f' },
        text(' g'),
      ],
    })
  })

  it('leaves the stars of a product alone', () => {
    expect(blocksOf('2 * 3 * 4, a*b*c')).toEqual([
      { kind: 'paragraph', content: [text('2 * 3 * 4, a*b*c')] },
    ])
  })

  it('keeps code as it is, with its blank lines', () => {
    expect(blocksOf('```sh\na *b*\n\n\n  c\n```')).toEqual([
      { kind: 'code', text: 'a *b*\n\n\n  c' },
    ])
  })

  it('joins what a list item goes on with', () => {
    expect(blocksOf('- one\n  goes on\n- two\n\n1. first\n2. second')).toEqual([
      { kind: 'list', items: [[text('one goes on')], [text('two')]] },
      { kind: 'list', items: [[text('first')], [text('second')]] },
    ])
  })

  it('has tables, where a bar may stand in a cell', () => {
    expect(blocksOf('| a | b |\n|---|---|\n| 1 | x \\| y |')).toEqual([
      { kind: 'table', heads: [[text('a')], [text('b')]], rows: [[[text('1')], [text('x | y')]]] },
    ])
  })

  it('is nothing for nothing', () => {
    expect(blocksOf('\n\n  \n')).toEqual([])
  })

  it('loses no word of the documents it is for', () => {
    const source = readFileSync(new URL('../../DEVELOPERS.md', import.meta.url), 'utf8')
    const shown = JSON.stringify(blocksOf(source))
    const words = source.match(/[A-Za-z]{4,}/g)!
    expect(words.length).toBeGreaterThan(500)
    // Except the language of a fence, which is not shown.
    expect(words.filter((word) => !shown.includes(word))).toEqual([])
  })
})
