import type { Remarks } from '../../components/fields.tsx'
import type { Live } from './live.ts'

/** Finds what is to be said beside a field, by its pointer. */
export type RemarksAt = (pointer: string) => Remarks

/**
 * @param isSending what is still needed is said only once it was tried to send
 * @param refused what the service said of an earlier attempt
 */
export function remarksFrom(
  live: Live,
  isSending: boolean,
  refused: readonly { readonly pointer: string; readonly detail: string }[],
): RemarksAt {
  return (pointer) => {
    const isNeeded = isSending && live.needed.includes(pointer)
    return {
      faults: [
        ...(isNeeded ? ['This is needed.'] : []),
        ...(live.faults.get(pointer) ?? []),
        ...refused.filter((error) => error.pointer === pointer).map(({ detail }) => detail),
      ],
      doubts: live.doubts.get(pointer) ?? [],
    }
  }
}
