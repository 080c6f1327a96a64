import { PART_KINDS, type PartKind, type SetupParts } from '../../core/comparison/additive-view.ts'
import type { Attribution, AttributionLine } from '../../core/comparison/attribution.ts'
import { decibelsOf, percentOf } from '../../core/comparison/compare.ts'
import { METRIC_FACTS, type Metric } from '../../core/comparison/metric.ts'
import type { LogDifference } from '../../core/comparison/verdict.ts'
import { findingOf } from './beside.ts'
import type { AttributionLine as ShownLine } from './schema.ts'
import { type Figures, lineSentence, reasonFor, restSentence, sameSentence } from './wording.ts'

/** Parts of both setups, and names of parts by id. */
export interface NamedEnds {
  readonly from: SetupParts
  readonly to: SetupParts
  readonly names: ReadonlyMap<string, string>
}

/** The lines of an attribution as they are shown: parts, those known together only, and the rest. */
export function showLines(metric: Metric, found: Attribution, ends: NamedEnds): ShownLine[] {
  const parts = PART_KINDS.map((kind) => partLine(metric, found, { kind, ends }))
  const { together, unexplained } = found
  return [
    ...parts,
    ...(together === null ? [] : [togetherLine(metric, together.kinds, together.line)]),
    restLine(metric, unexplained),
  ]
}

function partLine(
  metric: Metric,
  { parts, same }: Attribution,
  { kind, ends }: { readonly kind: PartKind; readonly ends: NamedEnds },
): ShownLine {
  const part = (id: string) => ({ id, name: ends.names.get(id) ?? id })
  const isSame = same.includes(kind)
  const line = parts[kind]
  const named = { from: part(ends.from[kind]), to: part(ends.to[kind]) }
  const head = { part: kind, ...named, same: isSame, finding: findingOf(line) }
  if (line.refusal !== null) return { ...head, ...refusedLine(line.refusal) }
  const shown = figuresOf(metric, line.difference)
  const sentence = isSame ? sameSentence(kind) : lineSentence([kind], shown.figures)
  return { ...head, ...shown.fields, sentence }
}

function togetherLine(
  metric: Metric,
  kinds: readonly PartKind[],
  line: AttributionLine,
): ShownLine {
  const finding = findingOf(line)
  const head = { part: 'together' as const, kinds: [...kinds], same: false, finding }
  if (line.refusal !== null) return { ...head, ...refusedLine(line.refusal) }
  const { figures, fields } = figuresOf(metric, line.difference)
  return { ...head, ...fields, sentence: lineSentence(kinds, figures) }
}

function restLine(metric: Metric, line: AttributionLine): ShownLine {
  const head = { part: 'unexplained' as const, same: false, finding: findingOf(line) }
  if (line.refusal !== null) return { ...head, ...refusedLine(line.refusal) }
  const { figures, fields } = figuresOf(metric, line.difference)
  return { ...head, ...fields, sentence: restSentence(figures) }
}

function refusedLine(code: Exclude<AttributionLine['refusal'], null>) {
  const reason = reasonFor(code)
  return { sentence: reason, refused: { reasonCode: code, reason } }
}

/** A difference on the scale of its metric, for sentences and as fields. */
export function figuresOf(metric: Metric, difference: LogDifference) {
  const { degreesOfFreedom } = difference
  if (METRIC_FACTS[metric].scale === 'level') {
    const { decibels, interval95 } = decibelsOf(difference)
    const [low, high] = interval95
    return {
      figures: { value: decibels, interval95, unit: 'dB' } as Figures,
      fields: { differenceDb: decibels, interval95Db: pair(low, high), degreesOfFreedom },
    }
  }
  const { percent, interval95 } = percentOf(difference)
  const [low, high] = interval95
  return {
    figures: { value: percent, interval95, unit: '%' } as Figures,
    fields: { differencePercent: percent, interval95Percent: pair(low, high), degreesOfFreedom },
  }
}

function pair(low: number, high: number): [number, number] {
  return [low, high]
}
