import { afterAll, beforeAll, describe, expect, it } from 'vitest'

import { normaliseSubmission } from '../../../src/core/normalise/submission.ts'
import { METHOD_VERSION } from '../../../src/core/version.ts'
import { CLIMB, type Desk, FUEL_BURN, type Pilot, scenarioA, startDesk } from './desk.ts'

let desk: Desk
let pilot: Pilot

beforeAll(async () => {
  desk = await startDesk()
  pilot = await desk.signUp()
})
afterAll(() => desk.close())

function post(body: object) {
  return desk.request.post('/v1/submissions').auth(pilot.token, { type: 'bearer' }).send(body)
}

describe('POST /v1/submissions', () => {
  // Source: METHOD.md, section d, worked by hand there and implemented once
  // independently: P_i,ref 8919 W, T 475.73 N, Vc 2.748 m/s. The printed digits hold to half a unit
  // of the last one.
  it('normalises worked scenario A to its published figures', async () => {
    const answer = await post(scenarioA(await desk.setup())).expect(201)
    const { normalized } = answer.body.entries[0].runs[0]
    expect(Math.abs(normalized.value - 2.748)).toBeLessThan(0.0005)
    expect(Math.abs(normalized.inducedPowerW - 8919)).toBeLessThan(0.5)
    expect(Math.abs(normalized.thrustN - 475.73)).toBeLessThan(0.005)
    expect(normalized).toMatchObject({ metric: 'climbRate', unit: 'm/s' })
    expect(normalized.climbRateMps).toBe(normalized.value)
  })

  it('answers every run with what the core gives for it', async () => {
    const drives = ['twoStroke', 'fourStroke'] as const
    const diametersCm = [125, 140]
    const setups = await Promise.all(
      drives.map((drive, i) => desk.setup({ drive, propellerDiameterCm: diametersCm[i]! })),
    )
    const body = scenarioA(setups[0]!, [CLIMB, FUEL_BURN, { ...CLIMB, durationS: 48, rpm: 8400 }])
    body.entries.push({ setupId: setups[1]!, allUpMassKg: 128, engineHours: 40, runs: [FUEL_BURN] })

    const answer = await post(body).expect(201)

    const expected = normaliseSubmission(
      { ...body, wing: body.wing as never },
      body.entries.map((entry, i) => ({
        entry,
        runs: entry.runs,
        equipment: { drive: drives[i]!, propellerDiameterCm: diametersCm[i]! },
      })),
    )
    const outcomes = expected.outcomes!
    expect(answer.body.entries).toEqual(
      body.entries.map((entry, e) => ({
        ...entry,
        runs: entry.runs.map((run, r) => ({
          ...run,
          normalized: outcomes[e]![r]!.normalized,
          warnings: outcomes[e]![r]!.warnings,
        })),
      })),
    )
    expect(answer.body.warnings).toEqual(
      expected.warnings.filter(({ pointer }) => !pointer.includes('/runs/')),
    )

    const stored = await desk.db.pool.query(
      `SELECT quantity, log_value AS "logValue", own_standard_uncertainty AS "ownStandardUncertainty",
              shared_standard_uncertainty AS "sharedStandardUncertainty", systematic
         FROM run_result JOIN run ON run.id = run_id JOIN submission_revision r ON r.id = run.revision_id
        WHERE submission_id = $1 ORDER BY entry_index, run_index`,
      [answer.body.id],
    )
    expect(stored.rows).toEqual(outcomes.flat().map((outcome) => outcome.evidence))
  })

  it('says where it is, under which method, and gives the same to its owner later', async () => {
    const answer = await post(scenarioA(await desk.setup(), [CLIMB, FUEL_BURN])).expect(201)
    expect(answer.headers.location).toBe(`/v1/submissions/${answer.body.id}`)
    expect(answer.body).toMatchObject({
      view: 'full',
      revision: 1,
      currentRevision: 1,
      accountId: pilot.accountId,
      methodVersion: METHOD_VERSION,
      referenceId: 'R1',
      withdrawnAt: null,
    })
    const read = await desk.request
      .get(answer.headers.location!)
      .auth(pilot.token, { type: 'bearer' })
      .expect(200)
    expect(read.body).toEqual(answer.body)
  })

  it('stores the body as it came, once and for all', async () => {
    const body = {
      ...scenarioA(await desk.setup()),
      note: 'Größe Ω 🪂 "quoted" \\ and a line\nbreak',
    }
    body.conditions.temperatureC = 25.000000000000004
    const { id } = (await post(body).expect(201)).body
    const stored = await desk.db.pool.query(
      'SELECT body FROM submission_revision WHERE submission_id = $1',
      [id],
    )
    expect(stored.rows).toEqual([{ body }])
    for (const table of ['submission_revision', 'run_result']) {
      const column = table === 'run_result' ? 'normalized' : 'body'
      const change = desk.db.pool.query(`UPDATE ${table} SET ${column} = '{}'`)
      await expect(change).rejects.toThrow('written once and never changed')
    }
  })

  it('takes a wing of the catalogue by its id', async () => {
    const setupId = await desk.setup()
    const { rows } = await desk.db.pool.query<{ id: string }>(
      `INSERT INTO component (kind, maker, model, flat_area_m2, glide_ratio, trim_speed_mps, trim_at_all_up_mass_kg)
       VALUES ('wing', 'Invented', 'Wing', 26, 8, 10.8, 124.8) RETURNING id`,
    )
    const described = {
      flatAreaM2: 26,
      glideRatio: 8,
      glideSource: 'catalogue' as const,
      trimSpeedMps: 10.8,
      trimAtAllUpMassKg: 124.8,
    }
    const byId = await post({ ...scenarioA(setupId), wing: { id: rows[0]!.id } }).expect(201)
    const inline = await post({ ...scenarioA(setupId), wing: described }).expect(201)
    const [ofId, ofWords] = [byId, inline].map((answer) => answer.body.entries[0].runs[0])
    expect(ofId.normalized).toEqual(ofWords.normalized)
    expect(byId.body.wing).toEqual({ id: rows[0]!.id })
    const pointers = (run: { warnings: { pointer: string }[] }) =>
      run.warnings.map((w) => w.pointer)
    expect(pointers(ofWords)).toEqual(['/wing/glideRatio'])
    expect(pointers(ofId)).toEqual(['/wing/id'])
  })

  it('counts a merged set-up and its merged parts for their survivors', async () => {
    const survivor = await desk.setup({ propellerDiameterCm: 130 })
    const merged = await desk.setup({ propellerDiameterCm: 100 })
    await desk.db.pool.query('UPDATE setup SET merged_into_id = $2 WHERE id = $1', [
      merged,
      survivor,
    ])
    const viaMerged = await post(scenarioA(merged)).expect(201)
    const direct = await post(scenarioA(survivor)).expect(201)
    expect(viaMerged.body.entries).toEqual(direct.body.entries)
    expect(viaMerged.body.entries[0].setupId).toBe(survivor)
  })

  it('follows a merge that comes later', async () => {
    const survivor = await desk.setup()
    const merged = await desk.setup()
    const { id } = (await post(scenarioA(merged)).expect(201)).body
    await desk.db.pool.query('UPDATE setup SET merged_into_id = $2 WHERE id = $1', [
      merged,
      survivor,
    ])
    const read = await desk.request.get(`/v1/submissions/${id}`).expect(200)
    expect(read.body.entries[0].setupId).toBe(survivor)
  })
})
