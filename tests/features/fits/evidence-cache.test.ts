import type { PoolClient } from 'pg'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'

import { QUANTITIES, type Quantity } from '../../../src/core/comparison/metric.ts'
import { METHOD_VERSION } from '../../../src/core/version.ts'
import { EvidenceCache } from '../../../src/features/fits/evidence-cache.ts'
import { INTEREST, pointersOf } from '../../../src/features/fits/evidence-rows.ts'
import { fitEvidence } from '../../../src/features/fits/model.ts'
import { selectRows } from '../../../src/features/fits/variants.ts'
import { type Field, openField, session } from '../comparisons/evenings.ts'

let field: Field
let setups: string[]
let mirroredSetup: string
let client: PoolClient

beforeAll(async () => {
  field = await openField()
  client = await field.db.pool.connect()
  setups = [await field.setup(), await field.setup(), await field.setup()]
})

afterAll(async () => {
  client.release()
  await field.close()
})

async function readInFull(quantity: Quantity, options?: { readonly mirrored: boolean }) {
  const fresh = new EvidenceCache([quantity], METHOD_VERSION, options)
  await fresh.update(client)
  return fresh.evidence(quantity)
}

const evening = (seconds: number) =>
  setups.slice(0, 2).map((setupId, i) => ({
    setupId,
    climbsS: [seconds + 3 * i, seconds + 3 * i + 0.7],
    burnsS: [400 + seconds],
  }))

/** Each change, and what it is called. */
const CHANGES: readonly [string, () => Promise<unknown>][] = [
  ['new submissions', () => Promise.all([0, 1, 2].map((pilot) => field.fly(pilot, evening(45))))],
  ['one more', () => field.fly(1, evening(46))],
  [
    'a revision',
    async () => {
      const id = await field.fly(0, evening(70))
      await caught.update(client)
      await field.request
        .post(`/v1/submissions/${id}/revisions`)
        .set(field.pilots[0]!.authorization)
        .send(session(evening(47)))
        .expect(201)
    },
  ],
  [
    'a withdrawal',
    async () => {
      const id = await field.fly(2, evening(80))
      await caught.update(client)
      await field.request.delete(`/v1/submissions/${id}`).set(field.pilots[2]!.authorization)
    },
  ],
  [
    'a session set aside',
    async () => {
      const id = await field.fly(2, evening(90))
      await caught.update(client)
      await field.db.pool.query(
        `INSERT INTO report (account_id, origin, kind, text, submission_id, revision_number, sets_aside)
       SELECT account_id, 'fit', 'outlier', 'odd', id, current_revision, true FROM submission WHERE id = $1`,
        [id],
      )
    },
  ],
  [
    'a setup merged into another',
    () =>
      field.db.pool.query('UPDATE setup SET merged_into_id = $1 WHERE id = $2', [
        setups[2],
        setups[1],
      ]),
  ],
  [
    'a pilot without an account named',
    async () => {
      const id = await field.fly(1, evening(49))
      await caught.update(client)
      await field.db.pool.query(
        `WITH guest AS (INSERT INTO guest_pilot (account_id) SELECT account_id FROM submission WHERE id = $1 RETURNING id)
         UPDATE submission SET guest_pilot_id = guest.id FROM guest WHERE submission.id = $1`,
        [id],
      )
    },
  ],
  ['a mirrored release', () => mirror()],
  [
    'its setup merged into another',
    () =>
      field.db.pool.query('UPDATE setup SET merged_into_id = $1 WHERE id = $2', [
        setups[2],
        mirroredSetup,
      ]),
  ],
  ['nothing', async () => undefined],
]

/** A session of two runs on one more setup, out of a release of another server. */
async function mirror(): Promise<void> {
  mirroredSetup = await field.setup()
  await field.db.pool.query(
    `WITH file AS (
       INSERT INTO data_import (account_id, kind, file_sha256, files, summary)
       SELECT account_id, 'release', '\\x00', '[]', '{}' FROM submission LIMIT 1 RETURNING id
     ), flown AS (
       INSERT INTO mirrored_session (id, import_id, pilot_id)
       SELECT '00000000-0000-4000-8000-000000000000', id, gen_random_uuid() FROM file RETURNING id
     )
     INSERT INTO mirrored_run (session_id, file_row, setup_id, quantity, method_version, log_value,
       own_standard_uncertainty, shared_standard_uncertainty, systematic, interested, all_up_mass_kg, as_released)
     SELECT id, row, $1, 'inducedPower', $2, 8.1 + 0.01 * row, 0.02, 0.01,
            '[{"cause":"another","reach":"everyone","effect":0.004}]', CASE WHEN row = 3 THEN false END, 110, '{}'
       FROM flown, unnest(ARRAY[2, 3]) AS row`,
    [mirroredSetup, METHOD_VERSION],
  )
}

const caught = new EvidenceCache(QUANTITIES, METHOD_VERSION)

describe('EvidenceCache', () => {
  it.each(CHANGES)(
    'after %s holds what a full reading gives, and fits to the same bits',
    async (_, change) => {
      await change()
      await caught.update(client)
      for (const quantity of QUANTITIES) {
        const full = await readInFull(quantity)
        const held = caught.evidence(quantity)
        expect(held).toEqual(full)
        expect(fitEvidence(held.rows)).toEqual(fitEvidence(full.rows))
      }
      expect(caught.evidence('inducedPower').rows.y.length).toBeGreaterThan(0)
    },
  )

  it('reads no revision twice', async () => {
    await caught.update(client)
    const asked: unknown[][] = []
    const listening = new Proxy(client, {
      get: (target, key) =>
        key === 'query'
          ? (query: { name?: string; values?: unknown[] } | string) => {
              if (typeof query === 'object' && query.name === 'evidence-runs')
                asked.push(query.values!)
              return (target.query as (query: unknown) => unknown).call(target, query)
            }
          : Reflect.get(target, key),
    })
    const id = await field.fly(0, evening(48))
    await caught.update(listening)
    expect(asked.map(([ids]) => ids)).toEqual([[id]])
  })

  it('puts mirrored runs last, claims no interest they do not tell, and drops them when they are withdrawn', async () => {
    await caught.update(client)
    const own = await readInFull('inducedPower', { mirrored: false })
    const { rows } = caught.evidence('inducedPower')
    expect(pointersOf(rows).slice(own.rows.y.length)).toEqual(['/rows/2', '/rows/3'])
    expect(rows.interested.slice(-2)).toEqual(Uint8Array.of(INTEREST.unknown, INTEREST.no))
    expect(rows.setup.ids[rows.setup.codes.at(-1)!]).toBe(setups[2])
    expect(rows.systematic.find(({ cause }) => cause === 'another')!.effect.slice(-3)).toEqual(
      Float64Array.of(0, 0.004, 0.004),
    )
    const without = selectRows(rows, { excludeInterested: true, massClass: null })
    expect(pointersOf(without).filter((place) => place.startsWith('/rows'))).toEqual(['/rows/3'])
    await field.db.pool.query('UPDATE data_import SET withdrawn_at = now()')
    await caught.update(client)
    expect(caught.evidence('inducedPower')).toEqual(own)
  })

  it('knows a pilot without an account by the pseudonym', async () => {
    const { rows } = caught.evidence('inducedPower')
    const { rows: guests } = await field.db.pool.query('SELECT id::text FROM guest_pilot')
    expect(rows.pilot.ids).toContain(guests[0].id)
  })
})
