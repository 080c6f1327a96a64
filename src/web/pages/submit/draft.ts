import { read, readAll, writeAll } from '../../store/database.ts'
import { onRemembered, recall, remember } from '../../store/device.ts'
import { lastSession } from '../../store/last-session.ts'
import { randomKey } from '../../store/random-key.ts'
import { shared, useShared } from '../../store/shared.ts'
import { blankEntry, blankForm, type Form } from './form.ts'
import { localDay } from './local-day.ts'

/**
 * The draft of this device. Each change is written down at once where writing cannot be cut short by
 * a closed tab (local storage), and soon after where a dead battery does not reach it (IndexedDB).
 * Of the two the later one counts. Open tabs show the same draft.
 */
export interface Draft {
  readonly form: Form
  /** Whether it is safe on this device; null while it is being written. */
  readonly isKept: boolean | null
}

interface Kept {
  readonly form: Form
  readonly keptAt: number
}

const CURRENT = 'current'
const JOURNAL = 'draft'
/** The draft goes to IndexedDB this soon after the last stroke [ms]. */
const SETTLE_MS = 250

const draft = shared<Draft | null>(null)
const shelf = shared<readonly Form[]>([])
let timer: ReturnType<typeof setTimeout> | undefined

onRemembered(JOURNAL, () => {
  if (draft.get() === null) return
  clearTimeout(timer)
  draft.set({ form: recall<Kept>(JOURNAL)?.form ?? startingForm(), isKept: true })
  void readShelf()
})

export function useDraft(): Draft | null {
  return useShared(draft)
}

/** Drafts that were set aside. */
export function useShelf(): readonly Form[] {
  return useShared(shelf)
}

function startingForm(): Form {
  const last = lastSession()
  const form = blankForm(localDay(new Date()), last)
  return { ...form, entries: [blankEntry(last, undefined)] }
}

/** Brings the draft back, as it was left in a tab that was closed since. */
export async function openDraft(): Promise<void> {
  const kept = await latestKept()
  draft.set({ form: kept?.form ?? startingForm(), isKept: true })
  await readShelf()
}

async function latestKept(): Promise<Kept | null> {
  const stored = await read<Kept>('drafts', CURRENT).catch(() => undefined)
  const all = [stored, recall<Kept>(JOURNAL)].filter((one) => one != null)
  return all.toSorted((a, b) => b.keptAt - a.keptAt)[0] ?? null
}

async function readShelf(): Promise<void> {
  const current = draft.get()?.form.key
  const kept = await readAll<Kept>('drafts').catch(() => [])
  shelf.set(kept.map(({ form }) => form).filter(({ key }) => key !== current))
}

export function changeDraft(part: Partial<Form>): void {
  const before = draft.get()
  if (before === null) return
  const kept: Kept = { form: { ...before.form, ...part }, keptAt: Date.now() }
  const isJournalled = remember(JOURNAL, kept)
  draft.set({ form: kept.form, isKept: isJournalled ? before.isKept : null })
  clearTimeout(timer)
  timer = setTimeout(() => {
    writeAll([{ store: 'drafts', key: CURRENT, value: kept }]).then(
      () => said(kept.form, true),
      () => said(kept.form, isJournalled),
    )
  }, SETTLE_MS)
}

/** Only of the form as it still stands. */
function said(form: Form, isKept: boolean): void {
  if (draft.get()?.form === form) draft.set({ form, isKept })
}

/** The change that takes the draft away; made together with what takes its place. */
export const WITHOUT_DRAFT = { store: 'drafts', key: CURRENT } as const

/** What moves elsewhere now is not written down once more as a draft, by a stroke of just before. */
export function holdDraft(): void {
  clearTimeout(timer)
}

/** Where it could not move after all: it is kept again, as far as there is room. */
export function resumeDraft(): void {
  changeDraft({})
}

/** Begins anew, with what the last session left. */
export function beginDraft(): void {
  holdDraft()
  remember(JOURNAL, null)
  draft.set({ form: startingForm(), isKept: true })
}

export async function throwDraftAway(): Promise<void> {
  beginDraft()
  await writeAll([WITHOUT_DRAFT]).catch(() => {})
}

/**
 * Puts a form in the place of the draft. What was there is set aside, not lost.
 *
 * @param beside changes that belong to it: all are made or none
 */
export async function takeAsDraft(
  form: Form | null,
  beside: Parameters<typeof writeAll>[0] = [],
): Promise<void> {
  const shown = draft.get()
  // What found no room is in this tab only, and is not left behind either.
  const isUnkept = shown !== null && shown.isKept !== true
  const before = isUnkept ? { form: shown.form, keptAt: Date.now() } : await latestKept()
  holdDraft()
  const kept = form === null ? undefined : ({ form, keptAt: Date.now() } satisfies Kept)
  try {
    await writeAll([
      ...(before === null
        ? []
        : [{ store: 'drafts', key: before.form.key, value: before } as const]),
      ...(form === null ? [] : [{ store: 'drafts', key: form.key } as const]),
      { store: 'drafts', key: CURRENT, value: kept },
      ...beside,
    ])
  } catch (error) {
    resumeDraft()
    throw error
  }
  remember(JOURNAL, kept ?? null)
  draft.set({ form: form ?? startingForm(), isKept: true })
  await readShelf()
}

export async function throwShelvedAway({ key }: Form): Promise<void> {
  await writeAll([{ store: 'drafts', key }])
  await readShelf()
}

/** The same readings under a new name, for a body that the service has refused. */
export function renamed(form: Form, refused: NonNullable<Form['refused']>): Form {
  return { ...form, key: randomKey(), refused }
}
