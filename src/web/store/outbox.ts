import { NoNetwork, type Problem, post, Refusal, type Schemas } from '../api/client.ts'
import { isSignedIn, onSession, sessionEmail } from '../api/session.ts'
import type { Form } from '../pages/submit/form.ts'
import { type Change, readAll, writeAll } from './database.ts'
import { onRemembered, remember } from './device.ts'
import { shared, useShared } from './shared.ts'

export type Body = Schemas['NewSubmission']

/** A submission on its way. Its key is sent along each time, so that it arrives once however often it is sent. */
export interface OutboxItem {
  readonly key: string
  readonly body: Body
  /** What it was written in, so that it can be mended when it is refused. */
  readonly form: Form
  /** The submission it corrects; null for a new one. */
  readonly revises: string | null
  /** Who was signed in when it was written; null: whoever signs in first. */
  readonly email: string | null
  readonly writtenAt: string
  readonly state: 'waiting' | 'refused'
  readonly problem: Problem | null
}

export interface Outbox {
  readonly items: readonly OutboxItem[]
  /** What arrived since the page was opened. */
  readonly arrived: readonly Schemas['FullSubmission'][]
}

const outbox = shared<Outbox>({ items: [], arrived: [] })
const RETRY_MS = 20_000
/** Tells other tabs that something in the outbox has changed. */
const CHANGED = 'outboxChanged'

export function useOutbox(): Outbox {
  return useShared(outbox)
}

/** Written while another account was signed in: nothing of it is shown. */
export function isOfAnother({ email }: OutboxItem, signedIn: string | null): boolean {
  return email !== null && email !== signedIn
}

/**
 * Puts a submission into the outbox; it is kept before this resolves.
 *
 * @param beside changes that belong to it: all are made or none
 */
export async function enqueue(form: Form, body: Body, beside: readonly Change[]): Promise<void> {
  const item: OutboxItem = {
    key: form.key,
    body,
    form,
    revises: form.revises,
    email: sessionEmail(),
    writtenAt: new Date().toISOString(),
    state: 'waiting',
    problem: null,
  }
  await change([{ store: 'outbox', key: item.key, value: item }, ...beside])
  // Ask the browser not to clear this away when room gets short; it may say no.
  void navigator.storage?.persist?.().catch(() => false)
}

export function discard(key: string): Promise<void> {
  return change([without(key)])
}

/** The change that takes an item out of the outbox. */
export function without(key: string): Change {
  return { store: 'outbox', key }
}

/** After changes of the outbox made elsewhere: the list in this tab and in others is read anew. */
export async function outboxChanged(): Promise<void> {
  remember(CHANGED, Date.now())
  await refresh()
}

async function change(changes: readonly Change[]): Promise<void> {
  await writeAll(changes)
  await outboxChanged()
}

/** Sends what waits, oldest first, in one tab at a time. */
export async function sendWaiting(): Promise<void> {
  const work = async () => {
    await refresh()
    for (const item of outbox.get().items) {
      if (item.state === 'waiting' && !(await send(item))) break
    }
    await refresh()
  }
  if (navigator.locks === undefined) await work()
  else await navigator.locks.request('fairclimb.outbox', work)
}

/** Starts sending: now, when the network is back, and every now and then while something waits. */
export function keepSending(): void {
  const attempt = () => void sendWaiting().catch(() => {})
  addEventListener('online', attempt)
  onRemembered(CHANGED, () => void refresh().catch(() => {}))
  let email = sessionEmail()
  onSession(() => {
    // What arrived belongs to who sent it; a renewed token changes nobody.
    if (sessionEmail() !== email) outbox.set({ ...outbox.get(), arrived: [] })
    email = sessionEmail()
    attempt()
  })
  addEventListener('visibilitychange', attempt)
  setInterval(() => {
    if (outbox.get().items.some(({ state }) => state === 'waiting')) attempt()
  }, RETRY_MS)
  attempt()
}

async function refresh(): Promise<void> {
  const items = await readAll<OutboxItem>('outbox')
  items.sort((a, b) => (a.writtenAt < b.writtenAt ? -1 : 1))
  outbox.set({ ...outbox.get(), items })
}

type Parcel = Pick<OutboxItem, 'key' | 'body' | 'revises'>

/**
 * Sends what this device has no room to keep, straight from the form.
 *
 * @throws {NoNetwork | Refusal} where it did not arrive, or may not have: its key makes it safe to send again
 */
export async function sendUnkept(form: Form, body: Body): Promise<void> {
  addArrived(await postParcel({ key: form.key, body, revises: form.revises }))
}

function postParcel({ key, body, revises }: Parcel): Promise<Schemas['FullSubmission']> {
  const options = { idempotencyKey: key }
  if (revises === null) return post('/v1/submissions', body, options)
  return post('/v1/submissions/{id}/revisions', body, { ...options, path: { id: revises } })
}

function addArrived(submission: Schemas['FullSubmission']): void {
  outbox.set({ ...outbox.get(), arrived: [...outbox.get().arrived, submission] })
}

/** Whether to go on with the next one. */
async function send(item: OutboxItem): Promise<boolean> {
  if (!isSignedIn() || isOfAnother(item, sessionEmail())) return true
  try {
    const submission = await postParcel(item)
    await change([without(item.key)])
    addArrived(submission)
    return true
  } catch (error) {
    if (error instanceof NoNetwork) return false
    if (!(error instanceof Refusal)) throw error
    const { problem } = error
    if (!isFinal(problem)) return !IS_BUSY.has(problem.status)
    const refused: OutboxItem = { ...item, state: 'refused', problem }
    await change([{ store: 'outbox', key: item.key, value: refused }])
    return true
  }
}

/** The service has no time for anybody now: the rest waits too. */
const IS_BUSY: ReadonlySet<number> = new Set([429, 502, 503, 504])

/** Refusals that a later attempt would not change. */
function isFinal({ status, type }: Problem): boolean {
  if (status === 409) return !type.endsWith('/request-in-flight')
  return status < 500 && ![401, 408, 425, 429].includes(status)
}
