import { NoNetwork, type Problem, post, Refusal, type Schemas } from '../api/client.ts'
import { isSignedIn, onSession, sessionEmail } from '../api/session.ts'
import { erase, readAll, write } from './database.ts'
import { randomKey } from './random-key.ts'
import { shared, useShared } from './shared.ts'

export type Body = Schemas['NewSubmission']

/** A submission on its way. Its key is sent along each time, so that it arrives once however often it is sent. */
export interface OutboxItem {
  readonly key: string
  readonly body: Body
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

export function useOutbox(): Outbox {
  return useShared(outbox)
}

/** Puts a submission into the outbox; it is kept before this resolves. */
export async function enqueue(body: Body, revises: string | null): Promise<OutboxItem> {
  const item: OutboxItem = {
    key: randomKey(),
    body,
    revises,
    email: sessionEmail(),
    writtenAt: new Date().toISOString(),
    state: 'waiting',
    problem: null,
  }
  await write('outbox', item.key, item)
  await refresh()
  return item
}

export async function discard(key: string): Promise<void> {
  await erase('outbox', key)
  await refresh()
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
  onSession(attempt)
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

/** Whether to go on with the next one. */
async function send(item: OutboxItem): Promise<boolean> {
  if (!isSignedIn() || (item.email !== null && item.email !== sessionEmail())) return true
  try {
    const options = { idempotencyKey: item.key }
    const submission =
      item.revises === null
        ? await post('/v1/submissions', item.body, options)
        : await post('/v1/submissions/{id}/revisions', item.body, {
            ...options,
            path: { id: item.revises },
          })
    await erase('outbox', item.key)
    outbox.set({ ...outbox.get(), arrived: [...outbox.get().arrived, submission] })
    return true
  } catch (error) {
    if (error instanceof NoNetwork) return false
    if (!(error instanceof Refusal)) throw error
    if (!isFinal(error.problem)) return false
    await write('outbox', item.key, { ...item, state: 'refused', problem: error.problem })
    return true
  }
}

/** Refusals that a later attempt would not change. */
function isFinal({ status }: Problem): boolean {
  return status < 500 && ![401, 408, 409, 425, 429].includes(status)
}
