import { COMPONENT_COUNT, componentArray, perComponent } from './components.ts'
import type { NestedFit, SearchStep } from './fit-result.ts'
import { slopesOfCovariance } from './slopes.ts'

/** Packed numbers do not belong to the header they came with. */
export class InvalidPackedFitError extends Error {
  override readonly name = 'InvalidPackedFitError'
}

/** Layout of the packed numbers; raised when it changes. */
const PACKING_VERSION = 2

/** Held T_j = X'V⁻¹G_jV⁻¹X where now the slopes of the covariance stand. */
const PACKED_WITH_SENSITIVITY = 1

/** Everything of a fit that is not an array of numbers; survives JSON unchanged. */
export interface FitHeader
  extends Pick<
    NestedFit,
    | 'setups'
    | 'status'
    | 'mergedInto'
    | 'keptStart'
    | 'converged'
    | 'singular'
    | 'standardErrorsKnown'
    | 'iterations'
    | 'separability'
    | 'counts'
    | 'options'
  > {
  readonly packingVersion: number
  /** For each step of the search, whether it was accepted. */
  readonly stepAccepted: readonly boolean[]
}

/** A fit as a JSON header and one block of numbers. */
export interface PackedFit {
  readonly header: FitHeader
  readonly numbers: Float64Array
}

/** θ, log-likelihood, decrement and damping of one step. */
const NUMBERS_PER_STEP = COMPONENT_COUNT + 3

/**
 * Splits a fit into a header for JSON and one array of numbers for bytes. Symmetric matrices are
 * stored as lower triangles, about 5 K² / 2 numbers in all.
 *
 * @param fit result of fitNested
 * @returns header and numbers; unpackFit gives the same fit back bit for bit
 * @source derived here
 */
export function packFit(fit: NestedFit): PackedFit {
  const { setups, status, mergedInto, converged, singular, standardErrorsKnown } = fit
  const { keptStart, iterations, separability, counts, options } = fit
  const writer = new NumberWriter(packedLength(setups.length, fit.search.length))
  writer.put(componentArray(fit.theta), [fit.logLikelihood], fit.score, fit.beta)
  writer.putLower(fit.covariance, setups.length)
  for (let j = 0; j < COMPONENT_COUNT; j++) {
    const size = setups.length ** 2
    writer.putLower(fit.covarianceSlope.subarray(j * size, (j + 1) * size), setups.length)
  }
  writer.put(fit.inverseExpected, fit.inverseObserved)
  for (const step of fit.search) {
    writer.put(componentArray(step.theta), [step.logLikelihood, step.decrement, step.damping])
  }
  return {
    header: {
      packingVersion: PACKING_VERSION,
      ...{ setups, status, mergedInto, converged, singular, standardErrorsKnown },
      ...{ keptStart, iterations, separability, counts, options },
      stepAccepted: fit.search.map((step) => step.accepted),
    },
    numbers: writer.numbers,
  }
}

/**
 * Puts a packed fit together again.
 *
 * @param packed header (also after a trip through JSON) and its numbers
 * @returns the fit, bit for bit as it was packed
 * @throws {InvalidPackedFitError} if version or number count do not match
 * @source derived here
 */
export function unpackFit({ header, numbers }: PackedFit): NestedFit {
  const { packingVersion, stepAccepted, ...rest } = header
  const K = header.setups.length
  const expected = packedLength(K, stepAccepted.length)
  const known = packingVersion === PACKING_VERSION || packingVersion === PACKED_WITH_SENSITIVITY
  if (!known || numbers.length !== expected) {
    throw new InvalidPackedFitError(
      `a packed fit of version ${PACKING_VERSION} with ${K} setups has ${expected} numbers, ` +
        `got version ${packingVersion} with ${numbers.length}`,
    )
  }
  const reader = new NumberReader(numbers)
  const theta = reader.take(COMPONENT_COUNT)
  const [logLikelihood] = reader.take(1)
  const score = reader.take(COMPONENT_COUNT)
  const beta = reader.take(K)
  const covariance = reader.takeLower(K)
  const matrices = new Float64Array(COMPONENT_COUNT * K * K)
  for (let j = 0; j < COMPONENT_COUNT; j++) matrices.set(reader.takeLower(K), j * K * K)
  const covarianceSlope =
    packingVersion === PACKING_VERSION ? matrices : slopesOfCovariance(covariance, matrices, K)
  return {
    ...rest,
    theta: perComponent((j) => theta[j]!),
    logLikelihood: logLikelihood!,
    ...{ score, beta, covariance, covarianceSlope },
    inverseExpected: reader.take(COMPONENT_COUNT ** 2),
    inverseObserved: reader.take(COMPONENT_COUNT ** 2),
    search: stepAccepted.map((accepted) => readStep(reader, accepted)),
  }
}

function readStep(reader: NumberReader, accepted: boolean): SearchStep {
  const [a, b, c, d, logLikelihood, decrement, damping] = reader.take(NUMBERS_PER_STEP)
  return {
    theta: { pilot: a!, session: b!, cell: c!, run: d! },
    logLikelihood: logLikelihood!,
    decrement: decrement!,
    damping: damping!,
    accepted,
  }
}

function packedLength(setups: number, steps: number): number {
  const triangles = ((COMPONENT_COUNT + 1) * setups * (setups + 1)) / 2
  const information = 2 * COMPONENT_COUNT ** 2
  return 2 * COMPONENT_COUNT + 1 + setups + triangles + information + steps * NUMBERS_PER_STEP
}

class NumberWriter {
  readonly numbers: Float64Array
  private place = 0

  constructor(length: number) {
    this.numbers = new Float64Array(length)
  }

  put(...parts: readonly ArrayLike<number>[]): void {
    for (const part of parts) {
      this.numbers.set(part, this.place)
      this.place += part.length
    }
  }

  /** Lower triangle of an n × n column-major matrix, column by column. */
  putLower(matrix: Float64Array, n: number): void {
    for (let j = 0; j < n; j++) this.put(matrix.subarray(j + j * n, (j + 1) * n))
  }
}

class NumberReader {
  private readonly numbers: Float64Array
  private place = 0

  constructor(numbers: Float64Array) {
    this.numbers = numbers
  }

  take(length: number): Float64Array {
    this.place += length
    return this.numbers.slice(this.place - length, this.place)
  }

  takeLower(n: number): Float64Array {
    const matrix = new Float64Array(n * n)
    for (let j = 0; j < n; j++) {
      const column = this.take(n - j)
      for (let i = j; i < n; i++) {
        matrix[i + j * n] = column[i - j]!
        matrix[j + i * n] = column[i - j]!
      }
    }
    return matrix
  }
}
