/** A fixed-pitch propeller by its coefficient curves over the advance ratio J = V/(n·D). */
export interface Propeller {
  readonly diameterM: number
  /** Thrust and torque coefficients at rest [1]. */
  readonly staticThrust: number
  readonly staticTorque: number
  /** Advance ratio of zero thrust [1]: near the pitch over the diameter. */
  readonly zeroThrustAdvance: number
  /** Linear part of the thrust curve [1]; the rest is quadratic. */
  readonly thrustLinear: number
  /** First rise of the torque curve with the advance ratio [1], and what is left at zero thrust [1]. */
  readonly torqueRise: number
  readonly torqueLeft: number
}

/** CT(J) = CT0·[1 − a·j − (1 − a)·j²], j = J/J0. */
export function thrustCoefficient(propeller: Propeller, advance: number): number {
  const j = advance / propeller.zeroThrustAdvance
  const a = propeller.thrustLinear
  return propeller.staticThrust * (1 - a * j - (1 - a) * j * j)
}

/** CQ(J) = CQ0·[1 + b·j − (1 + b − left)·j²], j = J/J0. */
export function torqueCoefficient(propeller: Propeller, advance: number): number {
  const j = advance / propeller.zeroThrustAdvance
  const b = propeller.torqueRise
  return propeller.staticTorque * (1 + b * j - (1 + b - propeller.torqueLeft) * j * j)
}

/**
 * Speed at which the propeller gives a thrust [rev/s]: T = ρD⁴n²·CT(V/nD) is a quadratic in n.
 */
export function rpsForThrust(
  propeller: Propeller,
  { thrustN, airspeedMps, densityKgPerM3 }: ThrustState,
): number {
  const { diameterM: D, zeroThrustAdvance, staticThrust, thrustLinear: a } = propeller
  const v = airspeedMps / (D * zeroThrustAdvance)
  const need = thrustN / (densityKgPerM3 * D ** 4 * staticThrust)
  // n² − a·v·n − (1 − a)·v² − need = 0
  return (a * v + Math.sqrt(a * a * v * v + 4 * ((1 - a) * v * v + need))) / 2
}

interface ThrustState {
  readonly thrustN: number
  readonly airspeedMps: number
  readonly densityKgPerM3: number
}
