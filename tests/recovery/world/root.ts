/** Where a function crosses zero between two points of opposite sign (Illinois form of regula falsi). */
export function rootOf(f: (x: number) => number, low: number, high: number): number {
  let a = low
  let b = high
  let fa = f(a)
  let fb = f(b)
  if (!(fa * fb <= 0))
    throw new Error(`no change of sign between ${low} (${fa}) and ${high} (${fb})`)
  for (let iteration = 0; iteration < 200; iteration++) {
    if (fa === fb) return a
    const x = (a * fb - b * fa) / (fb - fa)
    const fx = f(x)
    if (fx === 0 || Math.abs(b - a) < 1e-12 * Math.abs(x)) return x
    if (fx * fb < 0) {
      a = b
      fa = fb
    } else {
      fa /= 2
    }
    if (Math.abs(x - b) < 1e-11 * Math.abs(x)) return x
    b = x
    fb = fx
  }
  return b
}
