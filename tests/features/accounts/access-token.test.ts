import type { AddressInfo } from 'node:net'
import {
  type CryptoKey,
  createRemoteJWKSet,
  decodeJwt,
  decodeProtectedHeader,
  exportSPKI,
  generateKeyPair,
  importJWK,
  type JWK,
  type JWTPayload,
  jwtVerify,
  SignJWT,
  UnsecuredJWT,
} from 'jose'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'

import { startTestApp, type TestApp } from '../../support/app.ts'
import { type SignedUp, signUp } from '../../support/sign-up.ts'

let test: TestApp
let pilot: SignedUp
/** Claims of a token that would be accepted. */
let claims: JWTPayload
let header: { alg: string; typ: string; kid: string }
let privateJwk: JWK
let publicJwk: JWK

beforeAll(async () => {
  test = await startTestApp()
  pilot = await signUp(test)
  claims = decodeJwt(pilot.token)
  header = decodeProtectedHeader(pilot.token) as typeof header
  const stored = await test.db.prisma.signingKey.findFirstOrThrow()
  privateJwk = stored.privateJwk as JWK
  publicJwk = stored.publicJwk as JWK
})

afterAll(() => test.close())

const readMe = (token: string) => test.request.get('/v1/me').set('authorization', `Bearer ${token}`)

/** A token signed with the real key, so that only the named change is wrong with it. */
async function forge(change: { claims?: JWTPayload; header?: object; key?: CryptoKey }) {
  const key = change.key ?? (await importJWK(privateJwk, 'EdDSA'))
  const kept = Object.entries({ ...claims, ...change.claims }).filter(([, v]) => v !== undefined)
  return new SignJWT(Object.fromEntries(kept))
    .setProtectedHeader({ ...header, ...change.header })
    .sign(key)
}

describe('an access token', () => {
  it('says who, whose session, for whom, by whom and how long', () => {
    expect(header).toEqual({ alg: 'EdDSA', typ: 'at+jwt', kid: expect.any(String) })
    expect(claims).toEqual({
      iss: 'fairclimb',
      aud: 'fairclimb-api',
      sub: pilot.accountId,
      sid: expect.stringMatching(/^[0-9a-f-]{36}$/),
      role: 'pilot',
      jti: expect.stringMatching(/^[0-9a-f-]{36}$/),
      iat: expect.any(Number),
      exp: claims.iat! + 900,
    })
  })

  it('can be verified by others with the published keys', async () => {
    const { port } = test.app.server.address() as AddressInfo
    const keys = createRemoteJWKSet(new URL(`http://127.0.0.1:${port}/.well-known/jwks.json`))
    const { payload } = await jwtVerify(pilot.token, keys, {
      issuer: 'fairclimb',
      audience: 'fairclimb-api',
      algorithms: ['EdDSA'],
    })
    expect(payload.sub).toBe(pilot.accountId)
  })

  it('is accepted when made with the stored key, which shows that the forgeries below fail for their fault', async () => {
    await readMe(await forge({})).expect(200)
  })
})

describe('GET /.well-known/jwks.json', () => {
  it('publishes the public half only', async () => {
    const response = await test.request.get('/.well-known/jwks.json').expect(200)
    expect(response.body).toEqual({
      keys: [{ ...publicJwk, kid: header.kid, alg: 'EdDSA', use: 'sig' }],
    })
    expect(publicJwk).toEqual({ kty: 'OKP', crv: 'Ed25519', x: expect.any(String) })
    expect(response.text).not.toContain(privateJwk.d)
  })
})

describe('a forged access token is refused:', () => {
  const past = () => Math.floor(Date.now() / 1000) - 1

  it.each<[string, () => Promise<string> | string]>([
    ['without a signature (alg none)', () => new UnsecuredJWT(claims).encode()],
    ['signature cut off', () => pilot.token.replace(/[^.]+$/, '')],
    ['claims changed after signing', () => withClaims({ ...claims, role: 'admin' })],
    ['signed by another key under our key id', async () => forge({ key: await anotherKey() })],
    ['a key id nobody has', async () => forge({ key: await anotherKey(), header: { kid: 'x' } })],
    ['no key id', () => forge({ header: { kid: undefined } })],
    ['a key brought along in the header', () => withOwnKey()],
    ['another type of token', () => forge({ header: { typ: 'JWT' } })],
    ['expired', () => forge({ claims: { exp: past() } })],
    ['without an end', () => forge({ claims: { exp: undefined } })],
    ['not valid yet', () => forge({ claims: { nbf: past() + 3_600 } })],
    ['for another audience', () => forge({ claims: { aud: 'another-api' } })],
    ['without an audience', () => forge({ claims: { aud: undefined } })],
    ['from another issuer', () => forge({ claims: { iss: 'another' } })],
    ['without a session', () => forge({ claims: { sid: undefined } })],
    ['with a session that does not exist', () => forge({ claims: { sid: crypto.randomUUID() } })],
    [
      'with a session of somebody else',
      async () => forge({ claims: { sub: (await signUp(test)).accountId } }),
    ],
    ['not a token at all', () => 'larkfield'],
  ])('%s', async (_fault, make) => {
    const response = await readMe(await make()).expect(401)
    expect(response.body.type).toBe('/problems/not-authenticated')
    expect(response.headers['www-authenticate']).toBe('Bearer')
  })

  // The classic confusion: the verifier takes a public key for the secret of an HMAC.
  it.each<[string, () => Promise<Uint8Array> | Uint8Array]>([
    ['its raw bytes', () => Buffer.from(publicJwk.x!, 'base64url')],
    ['its base64url text', () => Buffer.from(publicJwk.x!)],
    ['its JSON', () => Buffer.from(JSON.stringify(publicJwk))],
    [
      'its PEM',
      async () =>
        Buffer.from(
          await exportSPKI(
            (await importJWK(publicJwk, 'EdDSA', { extractable: true })) as CryptoKey,
          ),
        ),
    ],
  ])('HS256 with the public key as secret, by %s', async (_how, secret) => {
    const token = await new SignJWT(claims)
      .setProtectedHeader({ ...header, alg: 'HS256' })
      .sign(await secret())
    await readMe(token).expect(401)
  })

  it('tells a client that only time has run out', async () => {
    const response = await readMe(await forge({ claims: { exp: past() } })).expect(401)
    expect(response.body.detail).toBe('The access token has expired.')
  })

  it.each(['', 'Bearer', 'Basic dXNlcjpwYXNz', 'Bearer two words'])(
    'the header "%s"',
    async (authorization) => {
      await test.request.get('/v1/me').set('authorization', authorization).expect(401)
    },
  )
})

async function anotherKey(): Promise<CryptoKey> {
  return (await generateKeyPair('EdDSA', { crv: 'Ed25519' })).privateKey
}

async function withOwnKey(): Promise<string> {
  const pair = await generateKeyPair('EdDSA', { crv: 'Ed25519', extractable: true })
  const jwk = await crypto.subtle.exportKey('jwk', pair.publicKey)
  return forge({ key: pair.privateKey, header: { jwk: { kty: 'OKP', crv: 'Ed25519', x: jwk.x } } })
}

function withClaims(changed: JWTPayload): string {
  const [head, , signature] = pilot.token.split('.')
  return `${head}.${Buffer.from(JSON.stringify(changed)).toString('base64url')}.${signature}`
}
