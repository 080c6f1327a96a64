import { readdirSync, readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'

import { REFERENCE } from '../../src/core/normalise/reference.ts'
import { FIELD_LIMITS } from '../../src/core/plausibility/limits.ts'

const CORE = new URL('../../src/core/', import.meta.url)
const ROOMS = [
  'acoustics',
  'atmosphere',
  'normalise',
  'plausibility',
  'safety',
  'uncertainty',
  'units.ts',
]
const EXAMPLE = /@example (.+?) \/\/ (.+)$/gm

interface Example {
  readonly file: string
  readonly call: string
  readonly printed: string
}

function examplesIn(file: string): Example[] {
  const text = readFileSync(new URL(file, CORE), 'utf8')
  return [...text.matchAll(EXAMPLE)].map(([, call, printed]) => ({
    file,
    call: call!,
    printed: printed!,
  }))
}

const files = readdirSync(CORE, { recursive: true, encoding: 'utf8' }).filter(
  (file) => file.endsWith('.ts') && ROOMS.some((room) => file.startsWith(room)),
)
const examples = files.flatMap(examplesIn)

/** Half a unit of the last digit printed, so that a rounded example holds and a wrong one does not. */
function halfDigit(printed: string): number {
  const decimals = /\.(\d+)/.exec(printed)?.[1]?.length ?? 0
  return 0.501 * 10 ** -decimals
}

describe('the examples in the doc comments', () => {
  it('are there', () => {
    expect(examples.length).toBeGreaterThan(30)
  })

  it.each(examples)('$file: $call', async ({ file, call, printed }) => {
    const module: Record<string, unknown> = await import(new URL(file, CORE).href)
    const scope: Record<string, unknown> = { REFERENCE, FIELD_LIMITS, ...module }
    const run = new Function(...Object.keys(scope), `return ${call}`)
    const result: unknown = run(...Object.values(scope))
    if (typeof result !== 'number') {
      expect(result).toBe(printed.replaceAll("'", ''))
      return
    }
    const [first] = printed.split(',')
    const expected = first!.replaceAll(' ', '').replaceAll('−', '-')
    expect(Math.abs(result - Number(expected))).toBeLessThanOrEqual(halfDigit(expected))
  })
})
