import { parseOptions } from '@node-rs/argon2'
import { describe, expect, it } from 'vitest'

import { hashPassword, isPassword, passwordFault } from '../../../src/features/accounts/password.ts'

const OWNER = { email: 'ada@example.org', displayName: 'Ada of Larkfield' }

describe('passwordFault', () => {
  it.each([
    ['ten letters of one kind', 'horsecarts'],
    ['ten code points outside the basic plane', '🪂🌤🌥🌦🌧🌨🌩🌪🌫🌬'],
    ['two hundred code points', `${'paramotor '.repeat(19)}0123456789`],
    ['spaces within and around', ' a b c d e '],
  ])('accepts %s', (_what, password) => {
    expect(passwordFault(password, OWNER)).toBeNull()
  })

  it.each([
    ['nine characters', 'horsecart', 'must have 10 to 200 characters'],
    [
      'nine characters that UTF-16 counts as eighteen',
      '🪂🌤🌥🌦🌧🌨🌩🌪🌫',
      'must have 10 to 200 characters',
    ],
    ['two hundred and one', 'paramotor 0'.padEnd(201, 'xyz'), 'must have 10 to 200 characters'],
    ['the e-mail address', 'Ada@Example.org', 'must not be the e-mail address'],
    ['the display name', ' ada of larkfield', 'must not be the display name'],
    ['one character repeated', 'aaaaaaaaaaaa', 'is too easy to guess'],
    ['three characters repeated', 'abcabcabcabc', 'is too easy to guess'],
    ['a row of the keyboard', 'QWERTYUIOP', 'is too easy to guess'],
  ])('refuses %s', (_what, password, fault) => {
    expect(passwordFault(password, OWNER)).toBe(fault)
  })
})

describe('hashPassword', () => {
  // Source: OWASP Password Storage Cheat Sheet, minimum configuration for Argon2id:
  // 19 MiB of memory, an iteration count of 2, 1 degree of parallelism.
  it('uses argon2id with the parameters of OWASP', async () => {
    const passwordHash = await hashPassword('correct horse battery')
    expect(passwordHash).toMatch(/^\$argon2id\$v=19\$/)
    expect(parseOptions(passwordHash)).toMatchObject({
      memoryCost: 19 * 1024, // KiB
      timeCost: 2,
      parallelism: 1,
    })
  })

  it('salts: the same password gives two hashes', async () => {
    const [first, second] = await Promise.all([
      hashPassword('same words'),
      hashPassword('same words'),
    ])
    expect(first).not.toBe(second)
  })

  it('lets the event loop turn while it works', async () => {
    let turned = false
    setImmediate(() => {
      turned = true
    })
    await hashPassword('correct horse battery')
    expect(turned).toBe(true) // a synchronous hash resolves before setImmediate
  })
})

describe('isPassword', () => {
  it('knows the password, its whole length, and no other', async () => {
    const long = `${'x'.repeat(198)}y`
    const passwordHash = await hashPassword(long)
    expect(await isPassword(long, passwordHash)).toBe(true)
    expect(await isPassword(`${'x'.repeat(198)}z`, passwordHash)).toBe(false)
    expect(await isPassword(long.toUpperCase(), passwordHash)).toBe(false)
  })

  it('takes two spellings of one accented letter for the same, as keyboards differ', async () => {
    const passwordHash = await hashPassword('Am\u00e9lie flies') // é as one code point
    expect(await isPassword('Ame\u0301lie flies', passwordHash)).toBe(true) // e and an accent
    expect(await isPassword('Amelie flies', passwordHash)).toBe(false)
  })
})
