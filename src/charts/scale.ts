/** A linear scale with the divisions of a ruler. */
export interface Scale {
  readonly min: number
  readonly max: number
  /** Pixel of a value. */
  at(value: number): number
  /** Values of the numbered divisions. */
  readonly majors: readonly number[]
  /** Values of the divisions between. */
  readonly minors: readonly number[]
  /** Decimals that tell the numbered divisions apart. */
  readonly decimals: number
}

interface Span {
  readonly fromPx: number
  readonly toPx: number
}

const PX_PER_MAJOR = 76

/**
 * A scale over some values, its ends on divisions.
 *
 * @param values what must fit, at least one finite value
 * @param span where it lies; `fromPx` may exceed `toPx`
 */
export function scaleFor(values: readonly number[], { fromPx, toPx }: Span): Scale {
  const finite = values.filter(Number.isFinite)
  const low = finite.length > 0 ? Math.min(...finite) : 0
  const high = finite.length > 0 ? Math.max(...finite) : 1
  const spread = high > low ? high - low : Math.abs(high) || 1
  const count = Math.max(2, Math.floor(Math.abs(toPx - fromPx) / PX_PER_MAJOR))
  const step = niceStep(spread / count)
  const minor = step / minorsPer(step)
  const min = Math.floor(low / minor + 1e-9) * minor
  const max = Math.ceil(high / minor - 1e-9) * minor
  return build({ min, max: max > min ? max : min + step, step, minor }, { fromPx, toPx })
}

/** A scale of whole positions 1 to `count`, each numbered where there is room. */
export function positionScale(count: number, { fromPx, toPx }: Span): Scale {
  const room = Math.max(1, Math.floor(Math.abs(toPx - fromPx) / 22))
  const step = Math.max(1, Math.ceil(count / room))
  const scale = build({ min: 0.5, max: count + 0.5, step, minor: step }, { fromPx, toPx })
  const majors = Array.from({ length: count }, (_, i) => i + 1).filter((p) => (p - 1) % step === 0)
  return { ...scale, majors, minors: [], decimals: 0 }
}

function build(
  { min, max, step, minor }: { min: number; max: number; step: number; minor: number },
  { fromPx, toPx }: Span,
): Scale {
  const at = (value: number) => fromPx + ((value - min) / (max - min)) * (toPx - fromPx)
  const majors = multiples(step, min, max)
  const isMajor = (value: number) => majors.some((m) => Math.abs(m - value) < minor / 2)
  const minors = multiples(minor, min, max).filter((value) => !isMajor(value))
  const decimals = Math.max(0, -Math.floor(Math.log10(step) + 1e-9))
  return { min, max, at, majors, minors, decimals }
}

function multiples(step: number, min: number, max: number): number[] {
  const first = Math.ceil(min / step - 1e-9)
  const last = Math.floor(max / step + 1e-9)
  return Array.from({ length: Math.max(0, last - first + 1) }, (_, i) => (first + i) * step)
}

/** 1, 2 or 5 times a power of ten, at least `rough`. */
function niceStep(rough: number): number {
  const power = 10 ** Math.floor(Math.log10(rough))
  const factor = [1, 2, 5, 10].find((f) => f * power >= rough * (1 - 1e-9)) ?? 10
  return factor * power
}

function minorsPer(step: number): number {
  const lead = Math.round(step / 10 ** Math.floor(Math.log10(step) + 1e-9))
  return lead === 2 ? 4 : 5
}
