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
export async function storeFile(
  client: PoolClient,
  { name, mediaType }: Pick<StoredFile, 'name' | 'mediaType'>,
  bytes: AsyncIterable<Uint8Array> | Iterable<Uint8Array>,
): Promise<StoredFile> {
  const whole = createHash('sha256')
  const chunkHashes: Buffer[] = []
  let sizeBytes = 0
  for await (const chunk of inChunks(bytes)) {
    whole.update(chunk)
    sizeBytes += chunk.length
    const hash = createHash('sha256').update(chunk).digest()
    chunkHashes.push(hash)
    await client.query({
      name: 'store-chunk',
      text: 'INSERT INTO dataset_chunk (sha256, bytes) VALUES ($1, $2) ON CONFLICT DO NOTHING',
      values: [hash, chunk],
    })
  }
  return { name, mediaType, sizeBytes, sha256: whole.digest('hex'), chunkHashes }
}

/** The same bytes in pieces of {@link CHUNK_BYTES}, the last one shorter. */
async function* inChunks(
  bytes: AsyncIterable<Uint8Array> | Iterable<Uint8Array>,
): AsyncGenerator<Buffer> {
  let parts: Uint8Array[] = []
  let length = 0
  for await (const part of bytes) {
    let rest = part
    while (length + rest.length >= CHUNK_BYTES) {
      const fits = CHUNK_BYTES - length
      yield Buffer.concat([...parts, rest.subarray(0, fits)])
      rest = rest.subarray(fits)
      parts = []
      length = 0
    }
    if (rest.length > 0) parts.push(rest)
    length += rest.length
  }
  if (length > 0) yield Buffer.concat(parts)
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
