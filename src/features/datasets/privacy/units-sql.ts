import { SUBMISSION_COUNTS } from '../../../db/counted-submissions.ts'

const CODES = 'month, interest_code, mass_code, elevation_code, wing_area_code, air_motion_code'

/**
 * The temporary table dataset_fact: every entry that counts with its codes, numbered from 0 in an
 * order that the same evidence has again. A person is an account, however many pilots it brought in:
 * what is shared is counted in accounts. It never leaves the transaction.
 */
export function factsSql(layout: string): string {
  const columns = `revision_id, entry_index, setup_id, runs, ${CODES}`
  return `
  CREATE TEMP TABLE dataset_fact ON COMMIT DROP AS
  WITH counted AS MATERIALIZED (
    SELECT id, current_revision, account_id, COALESCE(guest_pilot_id, account_id) AS pilot_id,
           dense_rank() OVER (ORDER BY account_id)::int - 1 AS person,
           row_number() OVER (ORDER BY id)::int - 1 AS session
      FROM submission WHERE ${SUBMISSION_COUNTS}
  )
  SELECT row_number() OVER (ORDER BY counted.session, entry.entry_index)::int - 1 AS record,
         counted.person, counted.session, counted.id AS submission_id, counted.pilot_id,
         entry.revision_id, entry.entry_index,
         COALESCE(setup.merged_into_id, entry.setup_id) AS setup_id, entry.runs, entry.is_late,
         ${CODES}
    FROM counted
    JOIN submission_revision revision
      ON revision.submission_id = counted.id AND revision.number = counted.current_revision
    JOIN (SELECT ${columns}, false AS is_late FROM dataset_entry WHERE layout = '${layout}'
          UNION ALL SELECT ${columns}, true FROM dataset_late) entry ON entry.revision_id = revision.id
    LEFT JOIN setup ON setup.id = entry.setup_id`
}

const keySql = (letter: string, id: string) =>
  `'${letter}' || left(encode(sha256(convert_to($1 || '${letter}' || ${id}, 'UTF8')), 'hex'), 16)`

/**
 * Entries with their keys and what may be shown of them. Parameters: the salt of the keys, what may be
 * shown (as cells of CSV), and the number of that for every entry.
 */
export const UNITS = `
  WITH session AS MATERIALIZED (
    SELECT submission_id, ${keySql('s', 'submission_id')} AS session_key
      FROM (SELECT DISTINCT submission_id FROM dataset_fact) one
  ), pilot AS MATERIALIZED (
    SELECT pilot_id, ${keySql('p', 'pilot_id')} AS pilot_key
      FROM (SELECT DISTINCT pilot_id FROM dataset_fact) one
  )
  SELECT fact.revision_id, fact.entry_index, fact.setup_id, fact.is_late,
         session.session_key, pilot.pilot_key, label.shown
    FROM dataset_fact fact
    JOIN session USING (submission_id)
    JOIN pilot USING (pilot_id)
    JOIN unnest($3::int[]) WITH ORDINALITY AS assigned(place, number) ON assigned.number = fact.record + 1
    JOIN unnest($2::text[]) WITH ORDINALITY AS label(shown, number) ON label.number = assigned.place + 1`
