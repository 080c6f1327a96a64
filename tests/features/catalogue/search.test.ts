import { randomUUID } from 'node:crypto'

import { afterAll, beforeAll, describe, expect, it } from 'vitest'

import { startTestApp, type TestApp } from '../../support/app.ts'
import { EQUIPMENT, fillCatalogue, type Name } from './catalogue-fixture.ts'

let service: TestApp
let nameOf: Map<string, Name>

beforeAll(async () => {
  service = await startTestApp()
  const ids = await fillCatalogue(service, (await service.signUp()).token)
  nameOf = new Map(Object.entries(ids).map(([name, id]) => [id, name as Name]))
})

afterAll(async () => service?.close())

async function list(query: Record<string, string>) {
  const { body } = await service.request.get('/v1/components').query(query).expect(200)
  const names: Name[] = body.items.map((item: { id: string }) => nameOf.get(item.id))
  return { names, nextCursor: body.nextCursor as string | null }
}

const find = async (q: string) => (await list({ q })).names

describe('a search', () => {
  it.each([
    ['heronsgate', ['heronE']],
    ['marrow', ['marrow140', 'marrow180']],
    ['Marrow Engines M-140', ['marrow140', 'marrow180']],
    ['tallis 130', ['tallis130', 'tallis125']],
  ] as const)('for %j begins with the best match', async (q, names) => {
    const found = await find(q)
    expect(found[0]).toBe(names[0])
    expect(names).toEqual(expect.arrayContaining(found))
  })

  it('forgives any one letter put wrong, left out, put in or swapped in a name', async () => {
    const missed: string[] = []
    for (const [word, maker] of [
      ['marrow', 'Marrow Engines'],
      ['tallis', 'Tallis Propellers'],
      ['quillon', 'Quillon Airscrews'],
      ['osier', 'Osier Frames'],
      ['sedgewick', 'Sedgewick Tubing'],
      ['kestrelfold', 'Kestrelfold Wings'],
    ] as const) {
      for (const slip of slipsOf(word)) {
        const [first] = await find(slip)
        if (first === undefined || EQUIPMENT[first].maker !== maker) missed.push(slip)
      }
    }
    expect(missed).toEqual([])
  })

  it.each([
    ['engines marrow', 'marrow140'],
    ['m140 marrow', 'marrow140'],
    ['hoop osier', 'osier'],
    ['lark 26 m2 kestrelfold', 'kestrel26'],
    ['26m² lark', 'kestrel26'],
    ['sweep 130cm', 'tallis130'],
    ['125 tallis', 'tallis125'],
    ['kestrel fold', 'kestrel24'],
    ['sedge', 'sedge'],
  ] as const)('finds %j whatever the order of the words', async (q, name) => {
    expect((await find(q))[0]).toBe(name)
  })

  it('finds nothing for what is in no name', async () => {
    expect(await find('zzyx')).toEqual([])
    expect(await find('%%%')).toEqual([])
    expect(await find("'; DROP TABLE component; --")).toEqual([])
  })

  it('may be limited to a kind', async () => {
    expect((await list({ q: 'glide', kind: 'wing' })).names).not.toContain('heronE')
    expect((await list({ q: 'glide', kind: 'powerplant' })).names).toEqual(['heronE'])
  })

  it('finds the surviving component by the name of a merged duplicate', async () => {
    const body = { kind: 'frame', maker: 'Bulrush', model: 'Alias' }
    const { token } = await service.signUp()
    const { id } = (
      await service.request
        .post('/v1/components')
        .auth(token, { type: 'bearer' })
        .send(body)
        .expect(201)
    ).body
    const osier = [...nameOf].find(([, name]) => name === 'osier')![0]
    await service.db.pool.query('UPDATE component SET merged_into_id = $1 WHERE id = $2', [
      osier,
      id,
    ])
    expect(await find('bulrush alias')).toEqual(['osier'])
  })
})

describe('a list', () => {
  it('is by name and then by size', async () => {
    expect((await list({})).names).toEqual([
      'heronE',
      'kestrel24',
      'kestrel26',
      'marrow140',
      'marrow180',
      'osier',
      'quill',
      'sedge',
      'tallis125',
      'tallis130',
    ])
    expect((await list({ kind: 'wing' })).names).toEqual(['kestrel24', 'kestrel26'])
  })

  it.each<Record<string, string>>([{}, { q: 'e' }, { q: 'marrow tallis' }])(
    'pages through %j without loss or repetition',
    async (query) => {
      const whole = (await list(query)).names
      const paged: Name[] = []
      let cursor: string | null = null
      do {
        const page: Awaited<ReturnType<typeof list>> = await list({
          ...query,
          limit: '1',
          ...(cursor === null ? {} : { cursor }),
        })
        expect(page.names.length).toBeLessThanOrEqual(1)
        paged.push(...page.names)
        cursor = page.nextCursor
      } while (cursor !== null)
      expect(paged).toEqual(whole)
    },
  )

  it.each([
    { cursor: 'nonsense' },
    { cursor: Buffer.from('["a"]').toString('base64url') },
    { cursor: Buffer.from(JSON.stringify([0, 'a\u0000', 0, randomUUID()])).toString('base64url') },
    { limit: '0' },
    { limit: '1000' },
    { kind: 'balloon' },
    { q: 'a\u0000b' },
    { q: ' ' },
    { q: 'x'.repeat(101) },
  ])('refuses %j', async (query) => {
    const answer = await service.request.get('/v1/components').query(query)
    expect(answer.status).toBe(400)
    expect(answer.body.errors[0].pointer).toBe(`/${Object.keys(query)[0]}`)
  })
})

/** The word with one letter wrong, missing, added or swapped with the next, after the first letter. */
function slipsOf(word: string): string[] {
  const slips: string[] = []
  for (let i = 1; i < word.length; i += 1) {
    const [head, letter, tail] = [word.slice(0, i), word[i]!, word.slice(i + 1)]
    const wrong = letter === 'x' ? 'y' : 'x'
    slips.push(head + wrong + tail, head + tail, `${head}x${letter}${tail}`)
    if (tail !== '' && tail[0] !== letter) slips.push(head + tail[0] + letter + tail.slice(1))
  }
  return slips
}
