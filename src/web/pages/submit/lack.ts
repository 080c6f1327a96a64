import type { Entered } from '../../units.ts'
import type { Doubts } from './form.ts'

/** Tells that something at a pointer is needed and not there. */
export type Lack = (pointer: string) => void

/** A number that is needed. */
export function mustOf(lack: Lack) {
  return (pointer: string, value: Entered): number => {
    if (value.stored === null) lack(pointer)
    return value.stored ?? Number.NaN
  }
}

/** A number that may be left open: then it is not sent. Letters in its place are no number. */
export function mayOf(lack: Lack, head: string) {
  return (name: string, value: Entered): Record<string, number> => {
    if (value.stored === null && value.text.trim() !== '') lack(`${head}/${name}`)
    return value.stored === null ? {} : { [name]: value.stored }
  }
}

/** With the stated uncertainties of the numbers that are there; the service refuses those of others. */
export function measured<T extends object>(
  part: T,
  doubts: Doubts | undefined,
  { head, lack }: { readonly head: string; readonly lack: Lack },
): T {
  const may = mayOf(lack, `${head}/uncertainty`)
  const stated = Object.keys(part).map((name) => {
    const doubt = doubts?.[name]
    return doubt === undefined ? {} : may(name, doubt)
  })
  const uncertainty: Record<string, number> = Object.assign({}, ...stated)
  return Object.keys(uncertainty).length === 0 ? part : { ...part, uncertainty }
}
