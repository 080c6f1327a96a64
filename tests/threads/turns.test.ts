import { describe, expect, it } from 'vitest'

import { Turns } from '../../src/threads/turns.ts'

interface Begun {
  readonly resolve: () => void
  readonly reject: (error: Error) => void
}

/** Work that ends when it is told to. */
function byHand() {
  const begun: Begun[] = []
  const turns = new Turns(
    () => new Promise((resolve, reject) => void begun.push({ resolve, reject })),
  )
  return { begun, turns }
}

const moment = () => new Promise((resolve) => setImmediate(resolve))

describe('turns', () => {
  it('does the work once for all who asked before it began', async () => {
    const { begun, turns } = byHand()
    const both = Promise.all([turns.take(), turns.take()])
    await moment()
    expect(begun).toHaveLength(1)
    begun[0]!.resolve()
    await both
    await moment()
    expect(begun).toHaveLength(1)
  })

  it('does it once more for all who asked meanwhile, and not before the one in hand ended', async () => {
    const { begun, turns } = byHand()
    const first = turns.take()
    await moment()
    let ended = 0
    for (let i = 0; i < 3; i++) void turns.take().then(() => ended++)
    await moment()
    expect(begun).toHaveLength(1)
    begun[0]!.resolve()
    await first
    await moment()
    expect(begun).toHaveLength(2)
    expect(ended).toBe(0)
    begun[1]!.resolve()
    await moment()
    expect(ended).toBe(3)
    expect(begun).toHaveLength(2)
  })

  it('tells who waited for it that it failed, and goes on with the next', async () => {
    const { begun, turns } = byHand()
    const first = turns.take()
    await moment()
    const second = turns.take()
    begun[0]!.reject(new Error('no'))
    await expect(first).rejects.toThrow('no')
    await moment()
    begun[1]!.resolve()
    await second
  })

  it('is settled when the last of them ended, also where it failed', async () => {
    const { begun, turns } = byHand()
    await turns.settled()
    const one = turns.take()
    let isSettled = false
    const settled = turns.settled().then(() => {
      isSettled = true
    })
    await moment()
    expect(isSettled).toBe(false)
    begun[0]!.reject(new Error('no'))
    await expect(one).rejects.toThrow('no')
    await settled
  })
})
