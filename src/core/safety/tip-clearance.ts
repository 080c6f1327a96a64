import { OutOfRangeError } from '../errors.ts'
import { Pcg32 } from '../random/pcg32.ts'
import { monteCarlo } from '../uncertainty/monte-carlo.ts'
import { type Model, propagate } from '../uncertainty/propagate.ts'
import { type TipClearanceQuestion, tipClearanceInputs, X } from './tip-clearance-inputs.ts'
import {
  gyroscopicMomentNm,
  requiredClearanceMm,
  type TipMovement,
  tipMovement,
} from './tip-movement.ts'

const MM_PER_M = 1000
const RAD_PER_DEG = Math.PI / 180
/** Softer rubber adds more than stiffer rubber takes away, so intervals are drawn, always the same way. */
const DRAWING = { draws: 5000, seed: 27 } as const

/** A figure with its standard uncertainty (k = 1, linear) and its 95 % interval (drawn). */
export interface Estimate {
  readonly value: number
  readonly standardUncertainty: number
  readonly interval95: readonly [number, number]
}

/** Where the uncertainty of the required clearance comes from. */
export interface ClearanceBudgetLine {
  readonly source: string
  /** Part of the required clearance's uncertainty [mm], k = 1. */
  readonly standardUncertainty: number
  /** Fraction of its variance; the shares sum to 1. */
  readonly share: number
}

/**
 * How a measured clearance stands to the required one. Never more than that: "larger" says nothing
 * of cracks, wear, hot rubber, hard landings or a mount that was left loose.
 */
export type ClearanceVerdict = 'tooSmall' | 'notResolved' | 'larger'

export interface TipClearanceAnswer {
  /** Of the upper tip towards the cage [mm]. */
  readonly topMovementMm: Estimate
  /** Of the lower tip towards the cage [mm]; negative: away from it. */
  readonly bottomMovementMm: Estimate
  /** The part of either movement that comes from turning, at most [mm]. */
  readonly gyroscopicMovementMm: number
  /** Tilt under thrust alone, the upper tip going forward [°]. */
  readonly tiltDeg: number
  readonly requiredClearanceMm: Estimate
  readonly budget: readonly ClearanceBudgetLine[]
  /** Pull at a tip, by hand scale, that tilts the propeller as far as thrust and turning do [N]. */
  readonly handPullN: number
  /** Null where no clearance was given. */
  readonly comparison: { readonly marginMm: Estimate; readonly verdict: ClearanceVerdict } | null
}

const OUTPUTS = { top: 0, bottom: 1, required: 2, margin: 3 } as const
const OUTPUT_COUNT = 4

/**
 * Movement of the tips and the clearance they need at rest, with uncertainty, from mount geometry.
 *
 *     Δx(z) = T/Σk + θ z (see tipMovement);  c ≥ 1.5 Δx + f + 10 mm;  margin = c_measured − c
 *
 * @param question thrust [N], 0 to 5000; heights [mm], −2000 to 2000; stiffness [N/mm], 0.1 to 1e5;
 *   diameter [cm], 20 to 400; blade flex [mm], 0 to 500; inertia [kg m²], speed [1/min] and rate of
 *   turning [°/s] together or not at all; clearance [mm]
 * @returns movements, requirement and comparison, each with standard uncertainty and 95 % interval
 * @throws {OutOfRangeError} if a value is NaN or outside its range, or the mounts leave tilting free
 * @source METHOD.md, section i; JCGM 100:2008 (GUM), 5.1.2
 */
export function tipClearance(question: TipClearanceQuestion): TipClearanceAnswer {
  const inputs = tipClearanceInputs(question)
  const momentNm = gyroscopicMomentOf(question)
  const nominal = figuresAt(
    Float64Array.from(inputs, ({ value }) => value),
    momentNm,
  )
  const model = modelOf(momentNm)
  const { contributions } = propagate(inputs, OUTPUT_COUNT, model)
  const { draws, seed } = DRAWING
  const drawn = monteCarlo(inputs, OUTPUT_COUNT, model, { draws, random: new Pcg32(seed) })
  const parts = (output: number) =>
    inputs.map((_, i) => contributions[i * OUTPUT_COUNT + output]! ** 2)
  const estimate = (output: number): Estimate => ({
    value: nominal.outputs[output]!,
    standardUncertainty: Math.sqrt(parts(output).reduce((sum, part) => sum + part, 0)),
    interval95: drawn.outputs[output]!.interval95,
  })
  const measured = question.staticClearanceMm !== undefined
  const marginMm = estimate(OUTPUTS.margin)
  return {
    topMovementMm: estimate(OUTPUTS.top),
    bottomMovementMm: estimate(OUTPUTS.bottom),
    gyroscopicMovementMm: MM_PER_M * nominal.moved.gyroscopicM,
    tiltDeg: nominal.moved.tiltRad / RAD_PER_DEG,
    requiredClearanceMm: estimate(OUTPUTS.required),
    budget: budgetOf(
      inputs.map(({ source }) => source),
      parts(OUTPUTS.required),
    ),
    handPullN: handPullN(question, momentNm),
    comparison: measured ? { marginMm, verdict: clearanceVerdict(marginMm) } : null,
  }
}

/**
 * How a margin reads. It is leaning: a margin below zero is too small whatever its uncertainty.
 *
 * @param marginMm measured less required clearance [mm]
 * @returns tooSmall, notResolved where the 95 % interval holds zero, else larger
 * @source engineering judgement
 */
export function clearanceVerdict({ value, interval95 }: Estimate): ClearanceVerdict {
  if (!(value >= 0)) return 'tooSmall'
  return interval95[0] > 0 ? 'larger' : 'notResolved'
}

function gyroscopicMomentOf(question: TipClearanceQuestion): number {
  const { propellerInertiaKgM2, propellerRpm, yawRateDegPerS } = question
  if (
    propellerInertiaKgM2 === undefined ||
    propellerRpm === undefined ||
    yawRateDegPerS === undefined
  ) {
    return 0
  }
  return gyroscopicMomentNm(propellerInertiaKgM2, propellerRpm, yawRateDegPerS * RAD_PER_DEG)
}

/** The pull of the practical test: (T·(h − z_c) + M_g) / R, which the tilt follows from. */
function handPullN(question: TipClearanceQuestion, momentNm: number): number {
  const stiffness = question.mounts.reduce((sum, mount) => sum + mount.stiffnessNPerMm, 0)
  const weighted = question.mounts.reduce((sum, m) => sum + m.stiffnessNPerMm * m.heightMm, 0)
  const armMm = question.thrustLineAboveMountsMm - weighted / stiffness
  const radiusMm = question.propellerDiameterCm * 5
  return (question.thrustN * Math.abs(armMm) + momentNm * MM_PER_M) / radiusMm
}

function modelOf(momentNm: number): Model {
  return (x, y) => {
    try {
      y.set(figuresAt(x, momentNm).outputs)
    } catch (error) {
      if (!(error instanceof OutOfRangeError)) throw error
      y.fill(Number.NaN)
    }
  }
}

function figuresAt(x: Float64Array, momentNm: number) {
  const moved = movementAt(x, momentNm)
  const topMm = MM_PER_M * moved.topM
  const bottomMm = MM_PER_M * moved.bottomM
  const requiredMm = requiredClearanceMm(Math.max(topMm, bottomMm), x[X.bladeFlexMm]!)
  const marginMm = x[X.staticClearanceMm]! - requiredMm
  return { moved, outputs: [topMm, bottomMm, requiredMm, marginMm] }
}

function movementAt(x: Float64Array, momentNm: number): TipMovement {
  const mounts = []
  for (let i = X.mounts; i < x.length; i += 2) {
    mounts.push({
      stiffnessNPerM: x[X.stiffnessFactor]! * x[i]! * MM_PER_M,
      heightM: x[i + 1]! / MM_PER_M,
    })
  }
  return tipMovement({
    thrustN: x[X.thrustN]!,
    thrustLineM: x[X.thrustLineMm]! / MM_PER_M,
    mounts,
    tipRadiusM: x[X.diameterMm]! / 2 / MM_PER_M,
    gyroscopicMomentNm: x[X.gyroscopicFactor]! * momentNm,
  })
}

/** One line per source, largest first; the mounts' lines count together. */
function budgetOf(sources: readonly string[], parts: readonly number[]): ClearanceBudgetLine[] {
  const bySource = new Map<string, number>()
  sources.forEach((source, i) => {
    if (parts[i]! > 0) bySource.set(source, (bySource.get(source) ?? 0) + parts[i]!)
  })
  const total = [...bySource.values()].reduce((sum, part) => sum + part, 0)
  return [...bySource]
    .map(([source, part]) => ({
      source,
      standardUncertainty: Math.sqrt(part),
      share: part / total,
    }))
    .sort((a, b) => b.share - a.share)
}
