import { hash, verify } from '@node-rs/argon2'

/**
 * Cost of one password hash: 19 MiB, 2 passes, 1 lane of argon2id.
 *
 * Source: OWASP Password Storage Cheat Sheet, minimum configuration for Argon2id. The work runs
 * on the thread pool of libuv, so requests are answered meanwhile.
 */
const ARGON2ID = { algorithm: 2, memoryCost: 19_456, timeCost: 2, parallelism: 1 } as const

/** Length a password may have, in Unicode code points. */
export const PASSWORD_LENGTH = { min: 10, max: 200 } as const

/**
 * Passwords long enough to pass that anyone would try first. From memory and short on purpose: it
 * is no list of leaked passwords.
 */
const OBVIOUS = new Set([
  '0123456789',
  '1234567890',
  '12345678910',
  '0987654321',
  '1q2w3e4r5t',
  '1qaz2wsx3edc',
  'abcdefghij',
  'administrator',
  'iloveyou123',
  'letmein123',
  'paragliding',
  'passw0rd123',
  'password12',
  'password123',
  'password1234',
  'passwordpassword',
  'qwertyuiop',
  'qwerty12345',
  'qwerty123456',
])

/** Fewer different characters than this are a pattern, not a password. */
const MIN_DIFFERENT_CHARACTERS = 4

/** Whether the length of a password is allowed: code points after normalisation, none cut off. */
export function hasPasswordLength(password: string): boolean {
  const length = [...canonical(password)].length
  return length >= PASSWORD_LENGTH.min && length <= PASSWORD_LENGTH.max
}

/**
 * Why a password is refused, or null where it is not. Length and guessability count; which kinds
 * of characters it has does not.
 *
 * Source: NIST SP 800-63B (revision 3), 5.1.1.2: length in code points, no composition rules,
 * repetitive, expected and context-specific words refused.
 */
export function passwordFault(
  password: string,
  owner: { readonly email: string; readonly displayName: string },
): string | null {
  const { min, max } = PASSWORD_LENGTH
  if (!hasPasswordLength(password)) return `must have ${min} to ${max} characters`
  const candidate = canonical(password).trim().toLowerCase()
  if (candidate === canonical(owner.email).toLowerCase()) return 'must not be the e-mail address'
  if (candidate === canonical(owner.displayName).trim().toLowerCase()) {
    return 'must not be the display name'
  }
  if (OBVIOUS.has(candidate) || new Set(candidate).size < MIN_DIFFERENT_CHARACTERS) {
    return 'is too easy to guess'
  }
  return null
}

/** argon2id of a password with a random salt, encoded with its parameters. */
export function hashPassword(password: string): Promise<string> {
  return hash(canonical(password), ARGON2ID)
}

/** Whether this is the password behind the hash. */
export function isPassword(password: string, passwordHash: string): Promise<boolean> {
  return verify(passwordHash, canonical(password))
}

/** One spelling of what looks the same, as NIST SP 800-63B, 5.1.1.2 advises: NFKC (UAX 15). */
function canonical(text: string): string {
  return text.normalize('NFKC')
}
