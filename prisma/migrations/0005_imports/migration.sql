-- What came in as a file: notebooks, which become submissions, and releases of other servers, whose runs
-- stand beside the submissions as evidence.

CREATE TABLE "data_import" (
    "id" UUID NOT NULL DEFAULT gen_random_uuid(),
    "account_id" UUID NOT NULL,
    "kind" TEXT NOT NULL,
    "file_sha256" BYTEA NOT NULL,
    "files" JSONB NOT NULL,
    "summary" JSONB NOT NULL,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "withdrawn_at" TIMESTAMPTZ(3),

    CONSTRAINT "data_import_pkey" PRIMARY KEY ("id")
);

CREATE TABLE "guest_pilot" (
    "id" UUID NOT NULL DEFAULT gen_random_uuid(),
    "account_id" UUID NOT NULL,
    "label_hash" BYTEA,

    CONSTRAINT "guest_pilot_pkey" PRIMARY KEY ("id")
);

CREATE TABLE "imported_session" (
    "submission_id" UUID NOT NULL,
    "import_id" UUID NOT NULL,
    "label_hash" BYTEA NOT NULL,
    "content_hash" BYTEA NOT NULL,

    CONSTRAINT "imported_session_pkey" PRIMARY KEY ("submission_id")
);

CREATE TABLE "mirrored_session" (
    "id" UUID NOT NULL,
    "import_id" UUID NOT NULL,
    "pilot_id" UUID NOT NULL,
    "fingerprint" TEXT,

    CONSTRAINT "mirrored_session_pkey" PRIMARY KEY ("id")
);

CREATE TABLE "mirrored_run" (
    "session_id" UUID NOT NULL,
    "file_row" INTEGER NOT NULL,
    "setup_id" UUID NOT NULL,
    "quantity" TEXT,
    "method_version" TEXT NOT NULL,
    "log_value" DOUBLE PRECISION,
    "own_standard_uncertainty" DOUBLE PRECISION,
    "shared_standard_uncertainty" DOUBLE PRECISION,
    "systematic" JSONB NOT NULL DEFAULT '[]',
    "interested" BOOLEAN,
    "all_up_mass_kg" DOUBLE PRECISION,
    "as_released" JSONB NOT NULL,

    CONSTRAINT "mirrored_run_pkey" PRIMARY KEY ("session_id", "file_row")
);

ALTER TABLE "submission" ADD COLUMN "guest_pilot_id" UUID;

CREATE INDEX "data_import_account_id_created_at_id_idx" ON "data_import"("account_id", "created_at", "id");
CREATE UNIQUE INDEX "guest_pilot_account_id_label_hash_key" ON "guest_pilot"("account_id", "label_hash");
CREATE INDEX "imported_session_import_id_idx" ON "imported_session"("import_id");
CREATE INDEX "mirrored_session_import_id_idx" ON "mirrored_session"("import_id");
CREATE INDEX "mirrored_run_setup_id_idx" ON "mirrored_run"("setup_id");
CREATE INDEX "submission_guest_pilot_id_idx" ON "submission"("guest_pilot_id");

ALTER TABLE "data_import" ADD CONSTRAINT "data_import_account_id_fkey" FOREIGN KEY ("account_id") REFERENCES "account"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "guest_pilot" ADD CONSTRAINT "guest_pilot_account_id_fkey" FOREIGN KEY ("account_id") REFERENCES "account"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "imported_session" ADD CONSTRAINT "imported_session_submission_id_fkey" FOREIGN KEY ("submission_id") REFERENCES "submission"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "imported_session" ADD CONSTRAINT "imported_session_import_id_fkey" FOREIGN KEY ("import_id") REFERENCES "data_import"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "mirrored_session" ADD CONSTRAINT "mirrored_session_import_id_fkey" FOREIGN KEY ("import_id") REFERENCES "data_import"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "mirrored_run" ADD CONSTRAINT "mirrored_run_session_id_fkey" FOREIGN KEY ("session_id") REFERENCES "mirrored_session"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "mirrored_run" ADD CONSTRAINT "mirrored_run_setup_id_fkey" FOREIGN KEY ("setup_id") REFERENCES "setup"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "submission" ADD CONSTRAINT "submission_guest_pilot_id_fkey" FOREIGN KEY ("guest_pilot_id") REFERENCES "guest_pilot"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- What Prisma's schema language cannot say.

ALTER TABLE "data_import" ADD CONSTRAINT "data_import_kind_check" CHECK ("kind" IN ('notebook', 'release'));
-- A file counts once: a notebook for its account, a release for everybody.
CREATE UNIQUE INDEX "data_import_notebook_key" ON "data_import" ("account_id", "file_sha256")
  WHERE "kind" = 'notebook' AND "withdrawn_at" IS NULL;
CREATE UNIQUE INDEX "data_import_release_key" ON "data_import" ("file_sha256")
  WHERE "kind" = 'release' AND "withdrawn_at" IS NULL;
-- A run that is evidence has its figures; as of own runs.
ALTER TABLE "mirrored_run" ADD CONSTRAINT "mirrored_run_evidence_check" CHECK (
  num_nulls("quantity", "log_value", "own_standard_uncertainty", "shared_standard_uncertainty") IN (0, 4));

CREATE TRIGGER "mirrored_run_is_immutable" BEFORE UPDATE ON "mirrored_run"
  FOR EACH ROW EXECUTE FUNCTION refuse_update();
CREATE TRIGGER "data_import_is_immutable" BEFORE UPDATE OF "account_id", "kind", "file_sha256", "files", "summary", "created_at" ON "data_import"
  FOR EACH ROW EXECUTE FUNCTION refuse_update();
