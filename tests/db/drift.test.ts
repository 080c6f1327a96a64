import { expect, it } from 'vitest'

import { queryOnce } from '../support/admin.ts'
import { schemaFacts } from '../support/catalogue.ts'
import { createScratchDatabase, createTestDatabase } from '../support/database.ts'
import { schemaSql } from '../support/schema-sql.ts'

/** What the migrations make and the language of schema.prisma cannot say. A new one is added here. */
const ONLY_IN_MIGRATIONS = [
  'check account_email_lower_check',
  'check account_role_check',
  'check component_price_check',
  'check component_required_check',
  'check data_import_kind_check',
  'check dataset_chunk_name_check',
  'check dataset_request_finished_check',
  'check dataset_request_state_check',
  'check import_request_finished_check',
  'check import_request_state_check',
  'check mirrored_run_evidence_check',
  'check report_kind_check',
  'check report_origin_check',
  'check report_outlier_check',
  'check report_subject_check',
  'check run_result_evidence_check',
  'check run_result_uncertainty_check',
  'check safety_report_lifted_check',
  'check safety_report_state_check',
  'check submission_revision_interest_check',
  'extension pg_trgm',
  'function forget_export_state',
  'function refuse_update',
  "index CREATE INDEX component_name_trgm_idx ON public.component USING gin ((((maker || ' '::text) || model)) gin_trgm_ops)",
  'index CREATE INDEX report_waiting_idx ON public.report USING btree (created_at, id) WHERE (decided_at IS NULL)',
  "index CREATE UNIQUE INDEX data_import_notebook_key ON public.data_import USING btree (account_id, file_sha256) WHERE ((kind = 'notebook'::text) AND (withdrawn_at IS NULL))",
  "index CREATE UNIQUE INDEX data_import_release_key ON public.data_import USING btree (file_sha256) WHERE ((kind = 'release'::text) AND (withdrawn_at IS NULL))",
  "index CREATE UNIQUE INDEX report_measurement_key ON public.report USING btree (submission_id, setup_id) WHERE (origin = 'measurement'::text)",
  "index CREATE UNIQUE INDEX report_outlier_key ON public.report USING btree (submission_id, revision_number) WHERE (kind = 'outlier'::text)",
  "index CREATE UNIQUE INDEX report_waiting_key ON public.report USING btree (account_id, kind, setup_id, component_id, submission_id) NULLS NOT DISTINCT WHERE ((origin = 'person'::text) AND (decided_at IS NULL))",
  'trigger audit_event_is_append_only',
  'trigger audit_event_is_never_emptied',
  'trigger data_import_is_immutable',
  'trigger dataset_chunk_is_immutable',
  'trigger dataset_chunk_is_never_emptied',
  'trigger dataset_entry_is_what_exports_read',
  'trigger dataset_file_is_immutable',
  'trigger dataset_file_is_never_emptied',
  'trigger dataset_release_is_immutable',
  'trigger dataset_release_is_never_emptied',
  'trigger fit_companion_is_immutable',
  'trigger fit_is_immutable',
  'trigger mirrored_run_is_immutable',
  'trigger report_is_immutable',
  'trigger run_is_immutable',
  'trigger run_result_is_immutable',
  'trigger safety_report_is_immutable',
  'trigger safety_report_is_lifted_once',
  'trigger submission_revision_is_immutable',
]

it('schema.prisma and the migrations make the same tables', async () => {
  const migrated = await createTestDatabase()
  const declared = await createScratchDatabase()
  try {
    await queryOnce(declared.url, await schemaSql(declared.url))
    const inMigrations = await schemaFacts(migrated.url)
    const inSchema = await schemaFacts(declared.url)

    expect([...inSchema].filter((fact) => !inMigrations.has(fact))).toEqual([])
    expect([...inMigrations].filter((fact) => !inSchema.has(fact)).sort()).toEqual(
      ONLY_IN_MIGRATIONS,
    )
    expect(inSchema).toContain('column account.email text not null')
  } finally {
    await migrated.drop()
    await declared.drop()
  }
})

it('notices a type, a default, a key and an index that differ', async () => {
  const { db, url, drop } = await createTestDatabase()
  try {
    const before = await schemaFacts(url)
    await db.pool.query(`
      ALTER TABLE component ALTER COLUMN mass_kg TYPE real;
      ALTER TABLE account ALTER COLUMN role DROP DEFAULT;
      ALTER TABLE setup DROP CONSTRAINT setup_frame_id_fkey;
      DROP INDEX component_kind_idx;`)
    const after = await schemaFacts(url)

    expect(
      [...before].filter((fact) => !after.has(fact)).map((fact) => fact.split(' (')[0]),
    ).toEqual(
      expect.arrayContaining([
        'column component.mass_kg double precision',
        "column account.role text not null default 'pilot'::text",
        'constraint setup_frame_id_fkey FOREIGN KEY',
        'index CREATE INDEX component_kind_idx ON public.component USING btree',
      ]),
    )
  } finally {
    await drop()
  }
})
