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
