import type { Stated } from '../types.ts'

/**
 * The stated standard uncertainty of a field, or the default.
 *
 * @param uncertainty the map beside the field
 * @param field name of the field
 * @param fallback default standard uncertainty [unit of the field]
 * @returns standard uncertainty [unit of the field]
 * @source common practice
 */
export function statedOr(uncertainty: Stated, field: string, fallback: number): number {
  return uncertainty?.[field] ?? fallback
}
