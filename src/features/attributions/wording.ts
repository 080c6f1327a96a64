import type { AnyVerdict } from '../../contract/beside.ts'
import type { PartKind } from '../../core/comparison/additive-view.ts'
import type { LineRefusal } from '../../core/comparison/attribution.ts'
import type { Finding } from './schema.ts'

const NOUN: Readonly<Record<PartKind, string>> = {
  powerplant: 'engine',
  propeller: 'propeller',
  frame: 'frame',
}

const REASONS: Readonly<Record<LineRefusal, string>> = {
  neverSeparated:
    'It was always changed together with other parts, so the flights cannot tell what it brings by itself.',
  notTestable:
    'There are as many parts as setups: nothing is left over that could show whether parts simply add up.',
  throughPartsOnly:
    'The two setups were never linked by flights, only through the parts they share, so a remainder cannot be known.',
}

/** Why a line has no number, in plain words. */
export function reasonFor(code: LineRefusal): string {
  return REASONS[code]
}

/** What a line says, as part of a sentence. */
export const FINDING_IN_WORDS: Readonly<Record<Finding, string>> = {
  raises: 'it surely raises the figure',
  lowers: 'it surely lowers the figure',
  open: 'it may bring nothing',
  nothing: 'it brings nothing',
  refused: 'nothing can be said of it',
}

/** A verdict on the setup one goes to, against the one that is left, as part of a sentence. */
export const VERDICT_IN_WORDS: Readonly<Record<AnyVerdict, string>> = {
  aBetter: 'the change is for the better',
  bBetter: 'the change is for the worse',
  practicallyEqual: 'the two are practically equal',
  notResolved: 'the two cannot be told apart',
  refused: 'there is too little to compare them at all',
}

/** Figures of a line as text, and whether they leave no doubt about the direction. */
export interface Figures {
  readonly value: number
  readonly interval95: readonly [number, number]
  readonly unit: '%' | 'dB'
}

/** What a line says, in one sentence. */
export function lineSentence(kinds: readonly PartKind[], figures: Figures): string {
  const subject = `The ${kinds.map((kind) => NOUN[kind]).join(' and the ')} together`
  const one = `The ${NOUN[kinds[0]!]}`
  return `${kinds.length > 1 ? subject : one} ${verb(figures)} ${asText(figures)}.`
}

/** The sentence of a part that both setups have. */
export function sameSentence(kind: PartKind): string {
  return `Both have the same ${NOUN[kind]}.`
}

/** The sentence of what parts do not explain. */
export function restSentence(figures: Figures): string {
  const [low, high] = figures.interval95
  const sure = low > 0 || high < 0
  const text = asText(figures)
  return sure
    ? `The parts together do not explain all of it: their combination brings another ${text}.`
    : `Nothing beyond the sum of the parts was seen: ${text}.`
}

/** The sentence of the whole difference. */
export function totalSentence(from: string, to: string, figures: Figures): string {
  return `From ${from} to ${to}: ${asText(figures)}.`
}

function verb({ interval95: [low, high] }: Figures): string {
  return low > 0 || high < 0 ? 'brings' : 'brings, within its doubt, perhaps nothing:'
}

function asText({ value, interval95: [low, high], unit }: Figures): string {
  return `${signed(value)} ${unit} (95 % interval ${signed(low)} to ${signed(high)} ${unit})`
}

function signed(value: number): string {
  const digits = Math.abs(value) < 10 ? 1 : 0
  return `${value < 0 ? '−' : '+'}${Math.abs(value).toFixed(digits)}`
}
