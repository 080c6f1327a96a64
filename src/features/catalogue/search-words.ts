/** One way to read a word of a query. */
export interface SearchWord {
  readonly word: string
  /** Which word of the query this reads, from 0. */
  readonly position: number
  /** What a match is worth: less for a reading that mends a slip. */
  readonly weight: number
  /** The word as a size: diameter in cm, area in m², displacement in cm³. */
  readonly size: number | null
}

const MAX_WORDS = 8
/** Words that stand beside a size and say nothing of a name. */
const UNITS = new Set(['cm', 'cc', 'm2', 'm²'])
const SIZE = /^(\d+(?:[.,]\d+)?)(?:cm|cc|m2|m²)?$/
/** Trigrams find a slip in a longer word by themselves; two swapped letters in a short one hide it. */
const SWAPPED = { minLength: 4, maxLength: 5, weight: 0.9 }

/** The words of a query with their readings; empty when it holds no letter and no digit. */
export function searchWords(query: string): SearchWord[] {
  const words = query
    .toLowerCase()
    .split(/\s+/u)
    .filter((word) => /[\p{L}\p{N}]/u.test(word) && !UNITS.has(word))
    .slice(0, MAX_WORDS)
  return words.flatMap((word, position) => {
    const size = SIZE.exec(word)?.[1]?.replace(',', '.')
    const plain = { word, position, weight: 1, size: size === undefined ? null : Number(size) }
    const mended = withLettersSwapped(word).map((swapped) => ({
      word: swapped,
      position,
      weight: SWAPPED.weight,
      size: null,
    }))
    return [plain, ...mended]
  })
}

function withLettersSwapped(word: string): string[] {
  const letters = [...word]
  const { minLength, maxLength } = SWAPPED
  if (letters.length < minLength || letters.length > maxLength || /\d/.test(word)) return []
  return letters.slice(1).map((letter, i) => {
    return [...letters.slice(0, i), letter, letters[i]!, ...letters.slice(i + 2)].join('')
  })
}
