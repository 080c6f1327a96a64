import type { AnyVerdict } from '../../contract/beside.ts'
import { PART_KINDS } from '../../core/comparison/additive-view.ts'
import type { Attribution, AttributionLine } from '../../core/comparison/attribution.ts'
import type { Refusal } from '../../core/comparison/refusal.ts'
import { studentTQuantile } from '../../core/distributions/student-t.ts'
import { type ByOthers, mapOthers, withOthers } from '../../db/other-fits.ts'
import type { Finding, Attribution as Shown, AttributionLine as ShownLine } from './schema.ts'
import { FINDING_IN_WORDS, VERDICT_IN_WORDS } from './wording.ts'

/** What a fit makes of a difference and of each of its lines, in one word each. */
export interface Findings {
  readonly verdict: AnyVerdict
  readonly ofLines: ReadonlyMap<string, Finding>
}

/** The findings of an attribution; all refused where there is none. */
export function findingsOf(found: Attribution | { readonly refusal: Refusal } | null): Findings {
  if (found === null || !('parts' in found)) return { verdict: 'refused', ofLines: new Map() }
  const { parts, together, unexplained, total } = found
  return {
    verdict: total.verdict,
    ofLines: new Map([
      ...PART_KINDS.map((kind): [string, Finding] => [kind, findingOf(parts[kind])]),
      ...(together === null
        ? []
        : [[`together ${together.kinds.join(' ')}`, findingOf(together.line)] as const]),
      ['unexplained', findingOf(unexplained)],
    ]),
  }
}

/** What the interval of a line says. */
export function findingOf(line: AttributionLine): Finding {
  if (line.refusal !== null) return 'refused'
  const { estimate, standardError, degreesOfFreedom } = line.difference
  if (estimate === 0 && standardError === 0) return 'nothing'
  const reach = studentTQuantile(0.975, degreesOfFreedom) * standardError
  if (Math.abs(estimate) <= reach) return 'open'
  return estimate > 0 ? 'raises' : 'lowers'
}

/** A line with what other fits find of it. */
export function lineBeside(line: ShownLine, others: ByOthers<Findings>): ShownLine {
  const name = line.kinds === undefined ? line.part : `${line.part} ${line.kinds.join(' ')}`
  const found = mapOthers(others, ({ ofLines }) => ({ finding: ofLines.get(name) ?? 'refused' }))
  return withOthers(line, found, {
    differs: ({ finding }) => finding !== line.finding,
    inWords: ({ finding }) => FINDING_IN_WORDS[finding],
  })
}

/** The whole difference with what other fits find of it. */
export function totalBeside(total: Shown['total'], others: ByOthers<Findings>): Shown['total'] {
  const found = mapOthers(others, ({ verdict }) => ({ verdict }))
  return withOthers(total, found, {
    differs: ({ verdict }) => verdict !== total.verdict,
    inWords: ({ verdict }) => VERDICT_IN_WORDS[verdict],
  })
}
