import { setImmediate } from 'node:timers/promises'
import { afterAll, describe, expect, it } from 'vitest'

import { rankSetups } from '../../../src/core/comparison/rank-setups.ts'
import { Ranker } from '../../../src/features/comparisons/ranker.ts'
import { wideQuestion } from '../../support/wide-fit.ts'

const ranker = new Ranker()
afterAll(() => ranker.close())

describe('a ranking of many setups', () => {
  const { question, candidates } = wideQuestion({ runs: 2_000, setups: 40 })

  it('has the numbers of one that is made in place, bit for bit, while other work goes on', async () => {
    let turns = 0
    let done = false
    const ranking = ranker.rank(question, candidates).finally(() => {
      done = true
    })
    for (; !done; turns++) await setImmediate()
    const ranks = await ranking
    expect(ranks.size).toBe(40)
    expect([...ranks]).toEqual([...rankSetups(question, candidates)])
    expect(turns).toBeGreaterThan(1)
  })

  it('ranks nothing where nothing can be compared', async () => {
    const nobody = candidates.map(({ equipment }, k) => ({ setupId: `nobody ${k}`, equipment }))
    expect((await ranker.rank(question, nobody)).size).toBe(0)
  })
})
