import type { PoolClient } from 'pg'

import type { SetupParts } from '../../core/comparison/additive-view.ts'
import { SUBMISSION_COUNTS } from '../../db/counted-submissions.ts'
import type { EvidenceRun } from './evidence-rows.ts'

/** One submission that counts, and who flew it: what its rows follow from, since a revision never changes. */
export interface CountedSubmission {
  readonly id: string
  readonly revision: number
  readonly pilot: string
}

/** Every submission that counts, by id: neither withdrawn nor set aside, at its current revision. */
export async function listCounted(client: PoolClient): Promise<CountedSubmission[]> {
  const { rows } = await client.query<[string, number, string]>({
    rowMode: 'array',
    text: `
      SELECT id::text, current_revision, COALESCE(guest_pilot_id, account_id)::text
        FROM submission WHERE ${SUBMISSION_COUNTS} ORDER BY submission.id`,
  })
  return rows.map(([id, revision, pilot]) => ({ id, revision, pilot }))
}

/** One run of a revision as it was stored, its setup as it was submitted. */
export interface StoredRunRow extends EvidenceRun {
  readonly quantity: string
}

/**
 * The runs of some revisions under one version of the normalisation, by submission and place in it. Raw SQL: a set
 * over four tables. The masses are read once per entry, since a stored body takes long to unpack.
 */
export async function readRuns(
  client: PoolClient,
  submissions: readonly CountedSubmission[],
  { quantities, methodVersion }: EvidenceScope,
): Promise<StoredRunRow[]> {
  const { rows } = await client.query<StoredRunRow>({
    name: 'evidence-runs',
    text: `
      WITH wanted AS (
        SELECT revision.id, asked.id AS submission_id, asked.pilot, revision.interest,
               ARRAY(SELECT (entry ->> 'allUpMassKg')::float8
                       FROM jsonb_array_elements(revision.body -> 'entries') WITH ORDINALITY AS item(entry, place)
                      ORDER BY place) AS masses
          FROM unnest($1::uuid[], $2::int[], $5::text[]) AS asked(id, number, pilot)
          JOIN submission_revision revision ON revision.submission_id = asked.id AND revision.number = asked.number
      )
      SELECT result.quantity, wanted.submission_id::text AS session, wanted.pilot,
             run.setup_id::text AS setup, result.log_value AS y, result.own_standard_uncertainty AS own,
             result.shared_standard_uncertainty AS shared, wanted.interest <> 'none' AS interested,
             result.systematic, wanted.masses[run.entry_index + 1] AS "allUpMassKg",
             run.entry_index AS "entryIndex", run.run_index AS "runIndex"
        FROM wanted
        JOIN run ON run.revision_id = wanted.id
        JOIN run_result result ON result.run_id = run.id AND result.method_version = $4
       WHERE result.quantity = ANY($3)
       ORDER BY wanted.submission_id, run.entry_index, run.run_index`,
    values: [
      submissions.map(({ id }) => id),
      submissions.map(({ revision }) => revision),
      quantities,
      methodVersion,
      submissions.map(({ pilot }) => pilot),
    ],
  })
  return rows
}

/** Which of the stored results are evidence. */
export interface EvidenceScope {
  readonly quantities: readonly string[]
  readonly methodVersion: string
}

/** What a setup counts as, and its parts, merged ones followed. */
export interface CountedSetup {
  readonly setup: string
  readonly parts: SetupParts
}

/** Every setup of the catalogue, by the id it was submitted under. */
export async function readSetups(client: PoolClient): Promise<Map<string, CountedSetup>> {
  const { rows } = await client.query<CountedSetup['parts'] & { id: string; setup: string }>(`
    SELECT setup.id::text, counted.id::text AS setup,
           COALESCE(powerplant.merged_into_id, powerplant.id)::text AS powerplant,
           COALESCE(propeller.merged_into_id, propeller.id)::text AS propeller,
           COALESCE(frame.merged_into_id, frame.id)::text AS frame
      FROM setup
      JOIN setup counted ON counted.id = COALESCE(setup.merged_into_id, setup.id)
      JOIN component powerplant ON powerplant.id = counted.powerplant_id
      JOIN component propeller ON propeller.id = counted.propeller_id
      JOIN component frame ON frame.id = counted.frame_id`)
  return new Map(rows.map(({ id, setup, ...parts }) => [id, { setup, parts }]))
}
