/** A key nobody else has: 128 random bits. Also where the page was not loaded over TLS. */
export function randomKey(): string {
  const bytes = crypto.getRandomValues(new Uint8Array(16))
  return [...bytes].map((byte) => byte.toString(16).padStart(2, '0')).join('')
}
