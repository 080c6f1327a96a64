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
