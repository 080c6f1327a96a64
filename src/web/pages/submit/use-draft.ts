import { useEffect, useRef, useState } from 'preact/hooks'

import { erase, read, write } from '../../store/database.ts'
import { recall } from '../../store/device.ts'
import { blankEntry, blankForm, type Form, type LastSession } from './form.ts'

const KEY = 'current'
/** A draft is kept this soon after the last stroke [ms]. */
const SETTLE_MS = 250

export const LAST_SESSION = 'lastSession'

/** The form and whether it is safe on this device. */
export interface Draft {
  readonly form: Form | null
  readonly isKept: boolean
  readonly last: LastSession | null
  change(part: Partial<Form>): void
  /** Forgets the draft and begins anew, with what the last session left. */
  begin(): void
}

export function startingForm(): Form {
  const last = recall<LastSession>(LAST_SESSION)
  const form = blankForm(localDay(new Date()), last)
  return { ...form, entries: [blankEntry(last, undefined)] }
}

/** The draft of this device; it is there again after a closed tab. */
export function useDraft(): Draft {
  const [form, setForm] = useState<Form | null>(null)
  const [isKept, setKept] = useState(true)
  const timer = useRef<ReturnType<typeof setTimeout>>()
  const latest = useRef<Form | null>(null)
  useEffect(() => {
    read<Form>('drafts', KEY)
      .catch(() => undefined)
      .then((kept) => {
        latest.current = kept ?? startingForm()
        setForm(latest.current)
      })
    const flush = () => {
      if (document.visibilityState === 'hidden' && latest.current) void keep(latest.current)
    }
    document.addEventListener('visibilitychange', flush)
    return () => document.removeEventListener('visibilitychange', flush)
  }, [])
  const change = (part: Partial<Form>) => {
    if (latest.current === null) return
    latest.current = { ...latest.current, ...part }
    setForm(latest.current)
    setKept(false)
    clearTimeout(timer.current)
    timer.current = setTimeout(() => {
      keep(latest.current!).then(
        () => setKept(true),
        () => {},
      )
    }, SETTLE_MS)
  }
  const begin = () => {
    clearTimeout(timer.current)
    latest.current = startingForm()
    setForm(latest.current)
    setKept(true)
    void erase('drafts', KEY)
  }
  return { form, isKept, last: recall<LastSession>(LAST_SESSION), change, begin }
}

export function keep(form: Form): Promise<void> {
  return write('drafts', KEY, form)
}

/** The day it is here, not in Greenwich. */
function localDay(date: Date): string {
  const two = (value: number) => String(value).padStart(2, '0')
  return `${date.getFullYear()}-${two(date.getMonth() + 1)}-${two(date.getDate())}`
}
