import type { TestApp } from '../../support/app.ts'

/** Equipment invented for these tests. */
export const EQUIPMENT = {
  marrow140: { kind: 'powerplant', maker: 'Marrow Engines', model: 'M-140', drive: 'twoStroke' },
  marrow180: { kind: 'powerplant', maker: 'Marrow Engines', model: 'M-180', drive: 'twoStroke' },
  heronE: {
    kind: 'powerplant',
    maker: 'Heronsgate Electric',
    model: 'Glide 12',
    drive: 'electric',
  },
  tallis125: { kind: 'propeller', maker: 'Tallis Propellers', model: 'Sweep 2', diameterCm: 125 },
  tallis130: { kind: 'propeller', maker: 'Tallis Propellers', model: 'Sweep 2', diameterCm: 130 },
  quill: { kind: 'propeller', maker: 'Quillon Airscrews', model: 'Broad', diameterCm: 140 },
  osier: { kind: 'frame', maker: 'Osier Frames', model: 'Hoop' },
  sedge: { kind: 'frame', maker: 'Sedgewick Tubing', model: 'Light' },
  kestrel24: { kind: 'wing', maker: 'Kestrelfold Wings', model: 'Lark', flatAreaM2: 24 },
  kestrel26: { kind: 'wing', maker: 'Kestrelfold Wings', model: 'Lark', flatAreaM2: 26 },
} as const

export type Name = keyof typeof EQUIPMENT

/** Adds a component over HTTP and gives the answer. */
export function add({ request }: TestApp, token: string, body: object) {
  return request.post('/v1/components').auth(token, { type: 'bearer' }).send(body)
}

/** Adds all of {@link EQUIPMENT} over HTTP; the ids by name. */
export async function fillCatalogue(
  service: TestApp,
  token: string,
): Promise<Record<Name, string>> {
  const ids: Record<string, string> = {}
  for (const [name, body] of Object.entries(EQUIPMENT)) {
    const answer = await add(service, token, body).expect(201)
    ids[name] = answer.body.id
  }
  return ids as Record<Name, string>
}
