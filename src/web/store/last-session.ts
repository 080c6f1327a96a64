import type { LastSession } from '../pages/submit/form.ts'
import { recall, remember } from './device.ts'

const STORED = 'lastSession'

/** What was flown last, to be offered again; null where nothing is remembered. */
export function lastSession(): LastSession | null {
  return recall<LastSession>(STORED)
}

/** null forgets it. */
export function rememberSession(last: LastSession | null): void {
  remember(STORED, last)
}
