import type { PoolClient } from 'pg'

import { FILE_ROW } from './evidence-rows.ts'
import type { EvidenceScope, StoredRunRow } from './evidence-sql.ts'

/**
 * Runs of releases of other servers that count here, under one version of the normalisation, their setups as they
 * were imported. They have no revision, and the place of a run is its row in the file. The order is fixed, so that
 * the same evidence reads the same.
 */
export async function readMirrored(
  client: PoolClient,
  { quantities, methodVersion }: EvidenceScope,
): Promise<StoredRunRow[]> {
  const { rows } = await client.query<StoredRunRow>({
    text: `
      SELECT run.quantity, session.id::text AS session, session.pilot_id::text AS pilot,
             run.setup_id::text AS setup, run.log_value AS y, run.own_standard_uncertainty AS own,
             run.shared_standard_uncertainty AS shared, run.interested, run.systematic,
             run.all_up_mass_kg AS "allUpMassKg", $3::int AS "entryIndex", run.file_row AS "runIndex"
        FROM data_import
        JOIN mirrored_session session ON session.import_id = data_import.id
        JOIN mirrored_run run ON run.session_id = session.id
       WHERE data_import.withdrawn_at IS NULL AND run.quantity = ANY($1) AND run.method_version = $2
       ORDER BY session.id, run.file_row`,
    values: [quantities, methodVersion, FILE_ROW],
  })
  return rows
}
