/** What a cell holds, or why it does not. */
export type Read<T> = { readonly value: T } | { readonly fault: string }

const WITH_POINT = /^[+-]?(\d+\.?\d*|\.\d+)([eE][+-]?\d{1,3})?$/
const WITH_COMMA = /^[+-]?(\d+,?\d*|,\d+)([eE][+-]?\d{1,3})?$/

/** A number; the decimal sign is that of the whole file. */
export function readNumber(
  text: string,
  { decimalComma, unit }: { readonly decimalComma: boolean; readonly unit?: string | null },
): Read<number> {
  const [expected, other] = decimalComma ? [WITH_COMMA, WITH_POINT] : [WITH_POINT, WITH_COMMA]
  if (expected.test(text)) {
    const value = Number(text.replace(',', '.'))
    return Number.isFinite(value) ? { value } : { fault: `${shown(text)} is too large.` }
  }
  if (other.test(text)) {
    const fault = decimalComma
      ? `${shown(text)}: in a file separated by semicolons the decimal sign is a comma.`
      : `${shown(text)}: in a file separated by commas the decimal sign is a point; a number with a comma is taken where semicolons separate the cells.`
    return { fault }
  }
  const hint = hintFor(text, { decimalComma, unit })
  if (hint !== null) return { fault: `${shown(text)} ${hint}` }
  const inUnit = unit === undefined || unit === null || unit === '1' ? '' : ` in ${unit}`
  return { fault: `${shown(text)} is not a number; write the number${inUnit} alone.` }
}

const CLOCK = /^(\d{1,3}):([0-5]\d)(?:[.,](\d+))?$/
const THOUSANDS = { comma: /^\d{1,3}(\.\d{3})+(,\d+)?$/, point: /^\d{1,3}(,\d{3})+(\.\d+)?$/ }

/** What a spreadsheet or a stopwatch may have made of a number, and how to write it; null: unknown. */
function hintFor(
  text: string,
  { decimalComma, unit }: { readonly decimalComma: boolean; readonly unit?: string | null },
): string | null {
  const clock = unit === 's' ? CLOCK.exec(text) : null
  if (clock !== null) {
    const [, minutes, seconds, rest] = clock
    const whole = 60 * Number(minutes) + Number(seconds)
    const inSeconds = rest === undefined ? whole : `${whole}${decimalComma ? ',' : '.'}${rest}`
    return `looks like minutes and seconds; in s that is ${inSeconds}.`
  }
  if (!THOUSANDS[decimalComma ? 'comma' : 'point'].test(text)) return null
  const bare = text.replaceAll(decimalComma ? '.' : ',', '')
  return `has signs between its thousands; write ${bare}.`
}

const TRUE = ['true', 'yes', '1', 'wahr', 'ja']
const FALSE = ['false', 'no', '0', 'falsch', 'nein']

/** Yes or no, as spreadsheets write it. */
export function readBoolean(text: string): Read<boolean> {
  const word = text.toLowerCase()
  if (TRUE.includes(word)) return { value: true }
  if (FALSE.includes(word)) return { value: false }
  return { fault: `${shown(text)} is neither true nor false.` }
}

const ISO_DAY = /^\d{4}-\d{2}-\d{2}$/
const DOTTED_DAY = /^(\d{1,2})\.(\d{1,2})\.(\d{4})$/

/**
 * A day, as YYYY-MM-DD; also day.month.year, which spreadsheets make of it. Slashes are refused: the
 * month comes first or second by country.
 */
export function readDay(text: string): Read<string> {
  if (ISO_DAY.test(text)) return { value: text }
  const dotted = DOTTED_DAY.exec(text)
  if (dotted === null) return { fault: `${shown(text)} is not a day; write it as 2026-05-17.` }
  const [, day, month, year] = dotted
  return { value: `${year}-${month!.padStart(2, '0')}-${day!.padStart(2, '0')}` }
}

/** A cell as it is quoted in a fault. */
function shown(text: string): string {
  return `"${text.length > 40 ? `${text.slice(0, 40)}…` : text}"`
}
