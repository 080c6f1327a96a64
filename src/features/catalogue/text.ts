/** Characters that no text of the catalogue needs, among them those that PostgreSQL refuses. */
const UNWANTED = /[\p{Cc}\p{Surrogate}]/u

/** Whether a text holds no control character (line breaks count as one) and no half of a character. */
export function isOneLine(text: string): boolean {
  return !UNWANTED.test(text)
}

/** As {@link isOneLine}, with line breaks and tabs allowed. */
export function isPlainText(text: string): boolean {
  return !UNWANTED.test(text.replace(/[\n\r\t]/g, ' '))
}

export const UNWANTED_MESSAGE = 'Must not hold control characters or broken Unicode'
