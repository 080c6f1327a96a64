import type { NewNormalization } from '../schema.ts'

const INTO_RUN = /^\/entries\/\d+\/runs\/\d+/
const EQUIPMENT = /^\/entries\/(\d+)\/equipment\//

/** Whether a JSON Pointer into a submission leads to a run or into it. */
export function pointsIntoRun(pointer: string): boolean {
  return INTO_RUN.test(pointer)
}

/**
 * Where the body says what the core points at. The core sees a wing with its fields and a set-up
 * with its parts; the body may have named the wing, or described the equipment.
 */
export function inBody<F extends { readonly pointer: string }>(
  body: NewNormalization,
): (finding: F) => F {
  return (finding) => {
    const { pointer } = finding
    if ('id' in body.wing && pointer.startsWith('/wing/'))
      return { ...finding, pointer: '/wing/id' }
    const entryIndex = EQUIPMENT.exec(pointer)?.[1]
    if (entryIndex === undefined || body.entries[Number(entryIndex)]?.equipment !== undefined) {
      return finding
    }
    return { ...finding, pointer: `/entries/${entryIndex}/setupId` }
  }
}
