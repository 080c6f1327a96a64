/** The same bytes with room for at least so many. */
export function grown(bytes: Uint8Array, atLeast: number): Uint8Array<ArrayBuffer> {
  const longer = new Uint8Array(Math.max(2 * bytes.length, atLeast))
  longer.set(bytes)
  return longer
}
