import type { Schemas } from '../../../api/client.ts'
import type { Entered } from '../../../units.ts'

export type PartKind = 'powerplant' | 'propeller' | 'frame'
export type NewPart = Schemas['NewComponent']

/** A part as it is chosen from the catalogue, or as it is typed because it is not there. */
export interface PartForm {
  /** One of the catalogue; null: typed below. */
  readonly id: string | null
  readonly maker: string
  readonly model: string
  readonly values: Readonly<Record<string, Entered>>
  readonly choices: Readonly<Record<string, string>>
}

export const EMPTY_PART: PartForm = { id: null, maker: '', model: '', values: {}, choices: {} }

interface PartNumber {
  readonly at: string
  readonly label: string
  readonly sign?: string
  readonly isOptional?: boolean
}

interface PartSpec {
  readonly label: string
  readonly numbers: readonly PartNumber[]
  readonly choices: readonly {
    readonly at: string
    readonly label: string
    readonly choices: readonly (readonly [value: string, label: string])[]
  }[]
}

/** What is needed of a new part, and what tells it from others of its name. */
export const PART_SPECS: Readonly<Record<PartKind, PartSpec>> = {
  powerplant: {
    label: 'Engine',
    numbers: [
      { at: 'displacementCc', label: 'Displacement', sign: 'cm³', isOptional: true },
      { at: 'reductionRatio', label: 'Reduction ratio', isOptional: true },
    ],
    choices: [
      {
        at: 'drive',
        label: 'Drive',
        choices: [
          ['twoStroke', 'Two-stroke'],
          ['fourStroke', 'Four-stroke'],
          ['electric', 'Electric'],
        ],
      },
      {
        at: 'tune',
        label: 'Tune',
        choices: [
          ['asDelivered', 'As delivered'],
          ['modified', 'Exhaust, carburettor, timing or the like changed'],
        ],
      },
    ],
  },
  propeller: {
    label: 'Propeller',
    numbers: [
      { at: 'diameterCm', label: 'Diameter', sign: 'cm' },
      { at: 'pitchCm', label: 'Pitch', sign: 'cm', isOptional: true },
      { at: 'blades', label: 'Blades', isOptional: true },
    ],
    choices: [],
  },
  frame: {
    label: 'Frame',
    numbers: [
      {
        at: 'hoopInnerDiameterCm',
        label: 'Inner diameter of the hoop',
        sign: 'cm',
        isOptional: true,
      },
    ],
    choices: [],
  },
}

export const PART_KINDS = Object.keys(PART_SPECS) as PartKind[]

/** The names of what a typed part still needs: maker, model, or a number. */
export function lackingIn(kind: PartKind, part: PartForm): string[] {
  if (part.id !== null) return []
  const names = (['maker', 'model'] as const).filter((name) => part[name].trim() === '')
  const numbers = PART_SPECS[kind].numbers.filter(({ at, isOptional }) => {
    const value = part.values[at]
    if (value === undefined || value.text.trim() === '') return isOptional !== true
    return value.stored === null
  })
  return [...names, ...numbers.map(({ at }) => at)]
}

/** The body that adds a typed part to the catalogue. */
export function partBody(kind: PartKind, part: PartForm): NewPart {
  const { numbers, choices } = PART_SPECS[kind]
  const written: Record<string, unknown> = {
    kind,
    maker: part.maker.trim(),
    model: part.model.trim(),
  }
  for (const { at } of numbers) {
    const stored = part.values[at]?.stored ?? null
    if (stored !== null) written[at] = stored
  }
  for (const { at, choices: all } of choices) written[at] = part.choices[at] ?? all[0]![0]
  return written as NewPart
}
