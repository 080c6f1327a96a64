import type { ComponentKind, NewComponent } from './schema.ts'

/**
 * What tells components of one name apart, as a pilot would: the same propeller in 125 and 130 cm
 * are two things, the same propeller at another price is not.
 */
export const DISTINGUISHING_FIELDS: Readonly<Record<ComponentKind, readonly string[]>> = {
  powerplant: ['drive', 'displacementCc', 'reductionRatio', 'tune'],
  propeller: ['diameterCm', 'pitchCm', 'blades', 'material'],
  frame: ['hoopInnerDiameterCm'],
  wing: ['flatAreaM2'],
}

const UNSTATED: Readonly<Record<string, unknown>> = { tune: 'asDelivered' }

/**
 * Whether a new component says nothing that tells it apart from a known one of the same name.
 *
 * A new one that states more than the known one (a pitch, where the known one has none) is another:
 * two records of one thing can be merged later, one record of two things cannot be parted.
 */
export function isDuplicate(
  added: NewComponent,
  known: Readonly<Record<string, unknown>>,
): boolean {
  const fields: Readonly<Record<string, unknown>> = added
  return DISTINGUISHING_FIELDS[added.kind].every((name) => {
    const stated = fields[name] ?? UNSTATED[name]
    return stated === undefined || same(stated, known[name] ?? UNSTATED[name])
  })
}

function same(a: unknown, b: unknown): boolean {
  if (typeof a === 'string' && typeof b === 'string') return a.toLowerCase() === b.toLowerCase()
  return a === b
}
