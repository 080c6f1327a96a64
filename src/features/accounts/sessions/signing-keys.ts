import { type CryptoKey, calculateJwkThumbprint, exportJWK, generateKeyPair, importJWK } from 'jose'

import type { Database } from '../../../db/client.ts'
import { findOrInsertSigningKeys, type StoredSigningKey } from './repository.ts'
import type { KeySet } from './schema.ts'

/** Algorithm of the access tokens: EdDSA with Ed25519 (RFC 8037). */
export const ALGORITHM = 'EdDSA'

/** How long a process goes on with the keys it read [ms]; a retired key is refused everywhere after that. */
const REREAD_AFTER_MS = 60_000

/** The keys of this service as one process sees them. */
export interface Keyring {
  /** The key that signs now. */
  signingKey(): Promise<{ readonly kid: string; readonly privateKey: CryptoKey }>
  /** The public key of that name; null where there is none. */
  verificationKey(kid: string): Promise<CryptoKey | null>
  keySet(): Promise<KeySet>
}

interface LoadedKeys {
  readonly readAtMs: number
  readonly signing: { readonly kid: string; readonly privateKey: CryptoKey }
  readonly publicKeys: ReadonlyMap<string, CryptoKey>
  readonly keySet: KeySet
}

/**
 * Keys live in the database, so that every process signs and verifies with the same ones; the first
 * that needs a key makes it. To replace a key set its retired_at: it then neither signs nor verifies,
 * and clients get a token of the next key with their refresh token.
 */
export function createKeyring(db: Database): Keyring {
  let reading: Promise<LoadedKeys> | null = null
  let loaded: LoadedKeys | null = null

  async function reread(): Promise<LoadedKeys> {
    reading ??= load(db).finally(() => {
      reading = null
    })
    loaded = await reading
    return loaded
  }

  async function current(): Promise<LoadedKeys> {
    const fresh = loaded !== null && Date.now() - loaded.readAtMs < REREAD_AFTER_MS
    return fresh ? loaded! : reread()
  }

  return {
    signingKey: async () => (await current()).signing,
    keySet: async () => (await current()).keySet,
    async verificationKey(kid) {
      const known = (await current()).publicKeys.get(kid)
      // Another process may have made a key since; at most one reading is under way at a time.
      return known ?? (await reread()).publicKeys.get(kid) ?? null
    },
  }
}

async function load(db: Database): Promise<LoadedKeys> {
  const readAtMs = Date.now()
  const stored = await findOrInsertSigningKeys(db, newSigningKey)
  const newest = stored[0]!
  const publicKeys = new Map<string, CryptoKey>()
  for (const { kid, publicJwk } of stored) publicKeys.set(kid, await importKey(publicJwk))
  return {
    readAtMs,
    signing: { kid: newest.kid, privateKey: await importKey(newest.privateJwk) },
    publicKeys,
    keySet: {
      keys: stored.map(({ kid, publicJwk: { x } }) => {
        return { kty: 'OKP', crv: 'Ed25519', x, kid, alg: ALGORITHM, use: 'sig' } as const
      }),
    },
  }
}

async function newSigningKey(): Promise<StoredSigningKey> {
  const pair = await generateKeyPair(ALGORITHM, { crv: 'Ed25519', extractable: true })
  const { x, d } = await exportJWK(pair.privateKey)
  const publicJwk = { kty: 'OKP', crv: 'Ed25519', x: x! } as const
  const kid = await calculateJwkThumbprint(publicJwk)
  return { kid, publicJwk, privateJwk: { ...publicJwk, d: d! } }
}

async function importKey(jwk: StoredSigningKey['publicJwk']): Promise<CryptoKey> {
  return (await importJWK(jwk, ALGORITHM)) as CryptoKey // a Uint8Array only for symmetric keys
}
