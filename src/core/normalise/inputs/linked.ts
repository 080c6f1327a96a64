import type { UncertainInput } from '../../uncertainty/propagate.ts'

/** Causes that the runs of a session share, by the names that all models use for them. */
export const SHARED_CAUSES = [
  'gainScale',
  'barometricShare',
  'sessionAirMps',
  'allUpMassKg',
  'trimSpeedMps',
  'trimMassKg',
  'elevationM',
  'temperatureC',
  'lapseKPerM',
  'pressureHPa',
  'relativeHumidityPct',
] as const

export type SharedCause = (typeof SHARED_CAUSES)[number]

/** d ln(figure) for one standard uncertainty of each cause [1]; absent: not touched. */
export type SharedErrors = Readonly<Partial<Record<SharedCause, number>>>

/** An input whose value follows other inputs, because it was measured with the same errors. */
export interface Link {
  readonly position: number
  readonly terms: readonly LinkTerm[]
}

interface LinkTerm {
  readonly position: number
  readonly nominal: number
  /** d ln(value) per unit of the other input. */
  readonly perUnit: number
}

/**
 * Value of a linked input.
 *
 *     value = x·exp( Σ b_k·(x_k − x̂_k)/u_k )
 *
 * @param x values of all inputs
 * @param link the input and what it follows
 * @returns value [unit of the input]; exactly x where nothing is displaced
 * @source derived: covariances kept to first order in the logarithm (JCGM 100:2008, 5.2.2 and F.1.2.3)
 */
export function linkedValue(x: Float64Array, { position, terms }: Link): number {
  let log = 0
  for (const { position: other, nominal, perUnit } of terms) log += perUnit * (x[other]! - nominal)
  return log === 0 ? x[position]! : x[position]! * Math.exp(log)
}

/** The wing's figures among the inputs of a model. */
export interface WingLinks {
  readonly glide: Link
  readonly trim: Link
}

type WingInputs = Readonly<Record<'glideRatio' | 'trimSpeedMps', UncertainInput>>

/**
 * Links glide ratio and trim speed to the causes that they share with the model they now serve.
 *
 * @param inputs inputs of the model by name, `glideRatio` and `trimSpeedMps` among them
 * @param model names of the inputs in the order of the model, and the name it has for the all-up mass
 * @param wing what the errors of both figures have in common with each cause
 * @returns the inputs, both completed, and their links
 * @source derived: see {@link linkedValue}
 */
export function linkWing<I extends WingInputs>(
  inputs: I,
  model: { readonly names: readonly (keyof I & string)[]; readonly massName?: keyof I & string },
  wing: { readonly glideShared: SharedErrors; readonly trimShared: SharedErrors },
): { readonly inputs: I; readonly links: WingLinks } {
  const trim = linkInput(inputs, { ...model, name: 'trimSpeedMps', shared: wing.trimShared })
  const glide = linkInput(inputs, { ...model, name: 'glideRatio', shared: wing.glideShared })
  const links = { trim: trim.link, glide: glide.link }
  const unchanged = trim.input === inputs.trimSpeedMps && glide.input === inputs.glideRatio
  if (unchanged) return { inputs, links }
  return { inputs: { ...inputs, trimSpeedMps: trim.input, glideRatio: glide.input }, links }
}

/**
 * Links an input to the causes it shares with the model it now serves. A cause that this model does
 * not have, or takes as exact, goes into the input's own standard uncertainty.
 *
 * @param inputs inputs of the model by name
 * @param given names in the order of the model, the name it has for the all-up mass if another, the
 *   input to link, and what its error has in common with each cause
 * @returns the input with its own standard uncertainty completed, and the link
 * @source derived: see {@link linkedValue}
 */
export function linkInput(
  inputs: Readonly<Record<string, UncertainInput>>,
  given: {
    readonly names: readonly string[]
    readonly massName?: string | undefined
    readonly name: string
    readonly shared: SharedErrors
  },
): { readonly input: UncertainInput; readonly link: Link } {
  const { names, name, shared, massName = 'allUpMassKg' } = given
  const input = inputs[name]!
  const terms: LinkTerm[] = []
  let left = 0
  for (const cause of SHARED_CAUSES) {
    const b = shared[cause] ?? 0
    if (b === 0) continue
    const otherName = cause === 'allUpMassKg' ? massName : cause
    const other = inputs[otherName]
    if (other === undefined || other.standardUncertainty === 0) left += b * b
    else {
      const perUnit = b / other.standardUncertainty
      terms.push({ position: names.indexOf(otherName), nominal: other.value, perUnit })
    }
  }
  const link = { position: names.indexOf(name), terms }
  if (left === 0) return { input, link }
  const standardUncertainty = Math.hypot(input.standardUncertainty, input.value * Math.sqrt(left))
  return { input: { ...input, standardUncertainty }, link }
}
