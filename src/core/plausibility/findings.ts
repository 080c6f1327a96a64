import type { Findings, Warning } from '../normalise/types.ts'
import { isInside, type Limit, type Range } from './limits.ts'
import { unitMistake, withUnit } from './unit-mistakes.ts'

/** Collects refusals and warnings, each once. */
export class FindingList implements Findings {
  readonly refusals: Warning[] = []
  readonly warnings: Warning[] = []
  readonly #seen = new Set<string>()

  refuse(pointer: string, code: string, detail: string): void {
    this.#addOnce(this.refusals, { pointer, code, detail })
  }

  warn(pointer: string, code: string, detail: string): void {
    this.#addOnce(this.warnings, { pointer, code, detail })
  }

  #addOnce(list: Warning[], finding: Warning): void {
    const key = `${finding.pointer} ${finding.code} ${finding.detail}`
    if (this.#seen.has(key)) return
    this.#seen.add(key)
    list.push(finding)
  }

  /**
   * Holds a value against a limit: refuses it, warns of it, or lets it pass.
   *
   * @returns false when it was refused
   */
  check(pointer: string, value: number, limit: Limit, hint = unitMistake(value, limit)): boolean {
    const refused = !isInside(value, limit.hard)
    if (!refused && isInside(value, limit.soft)) return true
    const range = refused ? limit.hard : limit.soft
    const detail = [sentence(value, limit, range, refused), hint].filter(Boolean).join(' ')
    if (refused) this.refuse(pointer, 'outOfRange', detail)
    else this.warn(pointer, 'unusual', detail)
    return !refused
  }
}

function sentence(value: number, limit: Limit, range: Range, refused: boolean): string {
  const span = `${range.min} to ${withUnit(range.max, limit.unit)}`
  const shown = withUnit(value, limit.unit)
  return refused
    ? `${limit.quantity} is ${shown}; it must lie within ${span}.`
    : `${limit.quantity} of ${shown} is unusual; most lie within ${span}.`
}

/**
 * A reference token of a JSON pointer.
 *
 * @param name any property name
 * @returns the token, escaped
 * @source RFC 6901, section 3
 * @example pointerToken('a/b') // 'a~1b'
 */
export function pointerToken(name: string): string {
  return name.replaceAll('~', '~0').replaceAll('/', '~1')
}
