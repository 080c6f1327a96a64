/**
 * All-up mass classes and the mass that stands for each [kg].
 *
 * @source editorial: the classes pilots speak of, each with a mass near its middle
 */
export const MASS_CLASSES = {
  under100: 90,
  '100to120': 110,
  '120to140': 130,
  '140to170': 155,
  tandem: 210,
} as const

export type MassClass = keyof typeof MASS_CLASSES

/**
 * Standard uncertainty of the mass that stands for a class: anywhere in the class, w/√12 [kg].
 *
 * @source JCGM 100:2008 (GUM), 4.3.7, on classes 20, 20, 20, 30 and 60 kg wide; the open ones by judgement
 */
export const MASS_CLASS_U_KG: Readonly<Record<MassClass, number>> = {
  under100: 20 / Math.sqrt(12),
  '100to120': 20 / Math.sqrt(12),
  '120to140': 20 / Math.sqrt(12),
  '140to170': 30 / Math.sqrt(12),
  tandem: 60 / Math.sqrt(12),
}

/** Upper ends of the classes, exclusive but for the last [kg]. */
const UPPER_ENDS_KG: readonly (readonly [MassClass, number])[] = [
  ['under100', 100],
  ['100to120', 120],
  ['120to140', 140],
  ['140to170', 170],
]

/**
 * The class of an all-up mass.
 *
 * @param allUpMassKg all-up mass [kg], above 0
 * @returns its class; a mass on a boundary belongs to the heavier class
 * @source the names of the classes
 * @example massClassOf(120) // '120to140'
 */
export function massClassOf(allUpMassKg: number): MassClass {
  const found = UPPER_ENDS_KG.find(([, end]) => allUpMassKg < end)
  return found === undefined ? 'tandem' : found[0]
}
