/** The runs contradict each other, for example one session belongs to two pilots. */
export class InvalidLayoutError extends Error {
  override readonly name = 'InvalidLayoutError'
}
