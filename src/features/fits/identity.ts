import { createHash } from 'node:crypto'

import { type FitVariant, PLAIN } from '../../core/comparison/fit-about.ts'
import { componentArray, type PerComponent } from '../../core/mixed/components.ts'
import type { EvidenceRows } from './evidence-rows.ts'

/**
 * Name of a fit: a hash of everything it follows from. The same evidence under the same versions, from the
 * same start, has the same fit, whoever computes it and whenever.
 */
export function fitId(
  versions: {
    readonly quantity: string
    readonly modelVersion: string
    readonly methodVersion: string
  },
  rows: EvidenceRows,
  variant: FitVariant = PLAIN,
  start: PerComponent<number> | null = null,
): string {
  const hash = createHash('sha256')
  hash.update(`${versions.quantity}\n${versions.modelVersion}\n${versions.methodVersion}\n`)
  for (const { ids, codes } of [rows.setup, rows.session, rows.pilot]) {
    hash.update(`${ids.join(' ')}\n`)
    hash.update(bytesOf(codes))
  }
  for (const name of COLUMNS) hash.update(bytesOf(rows[name]))
  for (const { cause, reach, effect } of rows.systematic) {
    hash.update(`${JSON.stringify({ cause, reach })}\n`)
    hash.update(bytesOf(effect))
  }
  hash.update(JSON.stringify(Object.entries(rows.parts ?? {}).sort(([a], [b]) => (a < b ? -1 : 1))))
  const { excludeInterested, massClass, robust } = variant
  if (excludeInterested) hash.update('excludeInterested')
  if (massClass !== null) hash.update(massClass)
  if (robust) hash.update('robust')
  if (start !== null) hash.update(bytesOf(componentArray(start)))
  return `fit_${hash.digest('hex').slice(0, 32)}`
}

const COLUMNS = ['y', 'own', 'shared', 'interested', 'logMass', 'entryIndex', 'runIndex'] as const

function bytesOf({ buffer, byteOffset, byteLength }: NodeJS.ArrayBufferView): Uint8Array {
  return new Uint8Array(buffer, byteOffset, byteLength)
}
