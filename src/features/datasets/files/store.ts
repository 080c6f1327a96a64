import { createHash } from 'node:crypto'

import type { Pool, PoolClient } from 'pg'

/** Length of every chunk of a file but the last [bytes]. */
export const CHUNK_BYTES = 1_048_576

export interface StoredFile {
  readonly name: string
  readonly mediaType: string
  readonly sizeBytes: number
  /** Hexadecimal. */
  readonly sha256: string
  readonly chunkHashes: readonly Buffer[]
}

/** Stores a file piece by piece, under the hashes of its pieces; what is there already is not stored again. */
export class FileStore {
  readonly #client: PoolClient
  readonly #told: Pick<StoredFile, 'name' | 'mediaType'>
  readonly #whole = createHash('sha256')
  readonly #chunkHashes: Buffer[] = []
  #sizeBytes = 0
  /** Of the chunk in hand. */
  #parts: Uint8Array[] = []
  #partBytes = 0

  constructor(client: PoolClient, told: Pick<StoredFile, 'name' | 'mediaType'>) {
    this.#client = client
    this.#told = told
  }

  /** Takes the next bytes; they must stay as they are until the file is ended. */
  async add(bytes: Uint8Array): Promise<void> {
    let rest = bytes
    while (this.#partBytes + rest.length >= CHUNK_BYTES) {
      const fits = CHUNK_BYTES - this.#partBytes
      this.#keep(rest.subarray(0, fits))
      await this.#storeChunk()
      rest = rest.subarray(fits)
    }
    if (rest.length > 0) this.#keep(rest)
  }

  async end(): Promise<StoredFile> {
    if (this.#partBytes > 0) await this.#storeChunk()
    return {
      ...this.#told,
      sizeBytes: this.#sizeBytes,
      sha256: this.#whole.digest('hex'),
      chunkHashes: this.#chunkHashes,
    }
  }

  #keep(part: Uint8Array): void {
    this.#parts.push(part)
    this.#partBytes += part.length
  }

  async #storeChunk(): Promise<void> {
    const chunk = Buffer.concat(this.#parts)
    this.#parts = []
    this.#partBytes = 0
    this.#whole.update(chunk)
    this.#sizeBytes += chunk.length
    const hash = createHash('sha256').update(chunk).digest()
    this.#chunkHashes.push(hash)
    await this.#client.query({
      name: 'store-chunk',
      text: 'INSERT INTO dataset_chunk (sha256, bytes) VALUES ($1, $2) ON CONFLICT DO NOTHING',
      values: [hash, chunk],
    })
  }
}

/** First and last byte that are wanted, both included. */
export interface ByteRange {
  readonly first: number
  readonly last: number
}

/** The bytes of a stored file, chunk by chunk, as they are asked for. */
export async function* readFile(
  source: Pool | PoolClient,
  { sizeBytes, chunkHashes }: Pick<StoredFile, 'sizeBytes' | 'chunkHashes'>,
  { first, last }: ByteRange = { first: 0, last: sizeBytes - 1 },
): AsyncGenerator<Buffer> {
  for (let i = Math.floor(first / CHUNK_BYTES); i * CHUNK_BYTES <= last; i++) {
    const { rows } = await source.query<{ bytes: Buffer }>({
      name: 'read-chunk',
      text: 'SELECT bytes FROM dataset_chunk WHERE sha256 = $1',
      values: [chunkHashes[i]],
    })
    const start = i * CHUNK_BYTES
    yield rows[0]!.bytes.subarray(Math.max(0, first - start), last - start + 1)
  }
}
