import { createHash, randomBytes } from 'node:crypto'

/** Length of refresh tokens and API keys [bytes]; 256 bits cannot be guessed, so a plain hash protects them. */
const SECRET_BYTES = 32

/** A new random secret, as text that fits a header. */
export function newSecret(): string {
  return randomBytes(SECRET_BYTES).toString('base64url')
}

/** What is stored in place of a secret. */
export function secretHash(secret: string): Buffer {
  return createHash('sha256').update(secret).digest()
}
