import { createHash } from 'node:crypto'

import { type FitVariant, PLAIN } from '../../core/comparison/fit-about.ts'
import type { EvidenceRows } from './model.ts'

/**
 * Name of a fit: a hash of everything it follows from. The same evidence under the same versions
 * has the same fit, whoever computes it and whenever.
 */
export function fitId(
  versions: {
    readonly quantity: string
    readonly modelVersion: string
    readonly methodVersion: string
  },
  rows: EvidenceRows,
  variant: FitVariant = PLAIN,
): string {
  const hash = createHash('sha256')
  hash.update(`${versions.quantity}\n${versions.modelVersion}\n${versions.methodVersion}\n`)
  for (const ids of [rows.setup, rows.session, rows.pilot]) hash.update(`${ids.join(' ')}\n`)
  for (const numbers of [rows.y, rows.own, rows.shared]) hash.update(new Uint8Array(numbers.buffer))
  hash.update(rows.interested.map((is) => (is === null ? '?' : Number(is))).join(''))
  hash.update(JSON.stringify(rows.systematic))
  hash.update(JSON.stringify(Object.entries(rows.parts ?? {}).sort(([a], [b]) => (a < b ? -1 : 1))))
  if (rows.logMass !== undefined) hash.update(new Uint8Array(rows.logMass.buffer))
  hash.update(JSON.stringify(rows.pointer ?? []))
  const { excludeInterested, massClass, robust } = variant
  if (excludeInterested) hash.update('excludeInterested')
  if (massClass !== null) hash.update(massClass)
  if (robust) hash.update('robust')
  return `fit_${hash.digest('hex').slice(0, 32)}`
}
