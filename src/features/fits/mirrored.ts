import type { PoolClient } from 'pg'

import type { Quantity } from '../../core/comparison/metric.ts'
import type { EvidenceRow } from './repository.ts'

/**
 * Runs of releases of other servers that count here, under one version of the normalisation: a setup or
 * part merged into another counts for that one. They have no revision, and the place of a run is its row
 * in the file. The order is fixed, so that the same evidence reads the same.
 */
export async function findMirrored(
  client: PoolClient,
  quantity: Quantity,
  methodVersion: string,
): Promise<EvidenceRow[]> {
  const { rows } = await client.query<EvidenceRow>({
    rowMode: 'array',
    text: `
      SELECT COALESCE(setup.merged_into_id, setup.id)::text, session.id::text, session.pilot_id::text,
             run.log_value, run.own_standard_uncertainty, run.shared_standard_uncertainty,
             run.interested, run.systematic,
             COALESCE(powerplant.merged_into_id, powerplant.id)::text,
             COALESCE(propeller.merged_into_id, propeller.id)::text,
             COALESCE(frame.merged_into_id, frame.id)::text,
             run.all_up_mass_kg, '/rows/' || run.file_row, NULL::int
        FROM data_import
        JOIN mirrored_session session ON session.import_id = data_import.id
        JOIN mirrored_run run ON run.session_id = session.id
        JOIN setup ON setup.id = run.setup_id
        JOIN setup counted ON counted.id = COALESCE(setup.merged_into_id, setup.id)
        JOIN component powerplant ON powerplant.id = counted.powerplant_id
        JOIN component propeller ON propeller.id = counted.propeller_id
        JOIN component frame ON frame.id = counted.frame_id
       WHERE data_import.withdrawn_at IS NULL AND run.quantity = $1 AND run.method_version = $2
       ORDER BY session.id, run.file_row`,
    values: [quantity, methodVersion],
  })
  return rows
}
