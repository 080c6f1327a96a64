-- Typo-tolerant search of the catalogue; a trusted extension since PostgreSQL 13.
CREATE EXTENSION IF NOT EXISTS pg_trgm;

-- CreateTable
CREATE TABLE "account" (
    "id" UUID NOT NULL DEFAULT gen_random_uuid(),
    "email" TEXT NOT NULL,
    "password_hash" TEXT NOT NULL,
    "display_name" TEXT NOT NULL,
    "role" TEXT NOT NULL DEFAULT 'pilot',
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "closed_at" TIMESTAMPTZ(3),

    CONSTRAINT "account_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "refresh_token" (
    "id" UUID NOT NULL DEFAULT gen_random_uuid(),
    "family_id" UUID NOT NULL,
    "account_id" UUID NOT NULL,
    "token_hash" BYTEA NOT NULL,
    "issued_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "expires_at" TIMESTAMPTZ(3) NOT NULL,
    "used_at" TIMESTAMPTZ(3),
    "revoked_at" TIMESTAMPTZ(3),

    CONSTRAINT "refresh_token_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "api_key" (
    "id" UUID NOT NULL DEFAULT gen_random_uuid(),
    "account_id" UUID NOT NULL,
    "name" TEXT NOT NULL,
    "prefix" TEXT NOT NULL,
    "key_hash" BYTEA NOT NULL,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "last_used_at" TIMESTAMPTZ(3),
    "revoked_at" TIMESTAMPTZ(3),

    CONSTRAINT "api_key_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "signing_key" (
    "id" TEXT NOT NULL,
    "private_jwk" JSONB NOT NULL,
    "public_jwk" JSONB NOT NULL,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "retired_at" TIMESTAMPTZ(3),

    CONSTRAINT "signing_key_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "idempotency_record" (
    "account_id" UUID NOT NULL,
    "key" TEXT NOT NULL,
    "request_hash" BYTEA NOT NULL,
    "status" INTEGER NOT NULL,
    "body" JSON NOT NULL,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "idempotency_record_pkey" PRIMARY KEY ("account_id","key")
);

-- CreateTable
CREATE TABLE "component" (
    "id" UUID NOT NULL DEFAULT gen_random_uuid(),
    "kind" TEXT NOT NULL,
    "maker" TEXT NOT NULL,
    "model" TEXT NOT NULL,
    "drive" TEXT,
    "displacement_cc" DOUBLE PRECISION,
    "rated_power_kw" DOUBLE PRECISION,
    "rated_rpm" DOUBLE PRECISION,
    "reduction_ratio" DOUBLE PRECISION,
    "tune" TEXT,
    "diameter_cm" DOUBLE PRECISION,
    "pitch_cm" DOUBLE PRECISION,
    "blades" INTEGER,
    "material" TEXT,
    "hoop_inner_diameter_cm" DOUBLE PRECISION,
    "hoop_depth_mm" DOUBLE PRECISION,
    "thrust_line_above_mounts_mm" DOUBLE PRECISION,
    "flat_area_m2" DOUBLE PRECISION,
    "glide_ratio" DOUBLE PRECISION,
    "trim_speed_mps" DOUBLE PRECISION,
    "trim_at_all_up_mass_kg" DOUBLE PRECISION,
    "mass_kg" DOUBLE PRECISION,
    "price_amount" DOUBLE PRECISION,
    "price_currency" TEXT,
    "price_as_of" DATE,
    "created_by_id" UUID,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "merged_into_id" UUID,

    CONSTRAINT "component_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "setup" (
    "id" UUID NOT NULL DEFAULT gen_random_uuid(),
    "powerplant_id" UUID NOT NULL,
    "propeller_id" UUID NOT NULL,
    "frame_id" UUID NOT NULL,
    "note" TEXT,
    "created_by_id" UUID,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "merged_into_id" UUID,

    CONSTRAINT "setup_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "safety_report" (
    "id" UUID NOT NULL DEFAULT gen_random_uuid(),
    "setup_id" UUID NOT NULL,
    "state" TEXT NOT NULL,
    "reason" TEXT NOT NULL,
    "submission_id" UUID,
    "report_id" UUID,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "lifted_at" TIMESTAMPTZ(3),
    "lifted_by_id" UUID,
    "lifted_reason" TEXT,

    CONSTRAINT "safety_report_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "report" (
    "id" UUID NOT NULL DEFAULT gen_random_uuid(),
    "account_id" UUID NOT NULL,
    "origin" TEXT NOT NULL,
    "kind" TEXT NOT NULL,
    "text" TEXT NOT NULL,
    "setup_id" UUID,
    "component_id" UUID,
    "submission_id" UUID,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "decided_at" TIMESTAMPTZ(3),

    CONSTRAINT "report_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "audit_event" (
    "id" BIGSERIAL NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "actor_id" UUID,
    "action" TEXT NOT NULL,
    "subject_kind" TEXT NOT NULL,
    "subject_id" UUID NOT NULL,
    "detail" JSONB NOT NULL DEFAULT '{}',

    CONSTRAINT "audit_event_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "submission" (
    "id" UUID NOT NULL DEFAULT gen_random_uuid(),
    "account_id" UUID NOT NULL,
    "current_revision" INTEGER NOT NULL DEFAULT 1,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "withdrawn_at" TIMESTAMPTZ(3),

    CONSTRAINT "submission_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "submission_revision" (
    "id" UUID NOT NULL DEFAULT gen_random_uuid(),
    "submission_id" UUID NOT NULL,
    "number" INTEGER NOT NULL,
    "body" JSONB NOT NULL,
    "flown_on" DATE NOT NULL,
    "elevation_m" DOUBLE PRECISION NOT NULL,
    "interest" TEXT NOT NULL,
    "warnings" JSONB NOT NULL DEFAULT '[]',
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "submission_revision_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "run" (
    "id" UUID NOT NULL DEFAULT gen_random_uuid(),
    "revision_id" UUID NOT NULL,
    "entry_index" INTEGER NOT NULL,
    "run_index" INTEGER NOT NULL,
    "setup_id" UUID NOT NULL,
    "kind" TEXT NOT NULL,

    CONSTRAINT "run_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "run_result" (
    "run_id" UUID NOT NULL,
    "method_version" TEXT NOT NULL,
    "reference_id" TEXT NOT NULL,
    "quantity" TEXT,
    "log_value" DOUBLE PRECISION,
    "own_standard_uncertainty" DOUBLE PRECISION,
    "shared_standard_uncertainty" DOUBLE PRECISION,
    "systematic" JSONB NOT NULL DEFAULT '[]',
    "normalized" JSONB NOT NULL,
    "derived" JSONB,
    "warnings" JSONB NOT NULL,

    CONSTRAINT "run_result_pkey" PRIMARY KEY ("run_id","method_version")
);

-- CreateTable
CREATE TABLE "fit" (
    "id" TEXT NOT NULL,
    "quantity" TEXT NOT NULL,
    "model_version" TEXT NOT NULL,
    "method_version" TEXT NOT NULL,
    "runs" INTEGER NOT NULL,
    "header" JSONB NOT NULL,
    "numbers" BYTEA NOT NULL,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "fit_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "current_fit" (
    "quantity" TEXT NOT NULL,
    "fit_id" TEXT NOT NULL,
    "updated_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "current_fit_pkey" PRIMARY KEY ("quantity")
);

-- CreateIndex
CREATE UNIQUE INDEX "account_email_key" ON "account"("email");

-- CreateIndex
CREATE UNIQUE INDEX "refresh_token_token_hash_key" ON "refresh_token"("token_hash");

-- CreateIndex
CREATE INDEX "refresh_token_family_id_idx" ON "refresh_token"("family_id");

-- CreateIndex
CREATE INDEX "refresh_token_account_id_idx" ON "refresh_token"("account_id");

-- CreateIndex
CREATE UNIQUE INDEX "api_key_key_hash_key" ON "api_key"("key_hash");

-- CreateIndex
CREATE INDEX "api_key_account_id_idx" ON "api_key"("account_id");

-- CreateIndex
CREATE INDEX "idempotency_record_created_at_idx" ON "idempotency_record"("created_at");

-- CreateIndex
CREATE INDEX "component_kind_idx" ON "component"("kind");

-- CreateIndex
CREATE UNIQUE INDEX "setup_powerplant_id_propeller_id_frame_id_key" ON "setup"("powerplant_id", "propeller_id", "frame_id");

-- CreateIndex
CREATE INDEX "safety_report_setup_id_idx" ON "safety_report"("setup_id");

-- CreateIndex
CREATE INDEX "safety_report_report_id_idx" ON "safety_report"("report_id");

-- CreateIndex
CREATE INDEX "report_account_id_idx" ON "report"("account_id");

-- CreateIndex
CREATE INDEX "report_setup_id_idx" ON "report"("setup_id");

-- CreateIndex
CREATE INDEX "audit_event_subject_id_id_idx" ON "audit_event"("subject_id", "id");

-- CreateIndex
CREATE INDEX "audit_event_actor_id_idx" ON "audit_event"("actor_id");

-- CreateIndex
CREATE INDEX "submission_account_id_idx" ON "submission"("account_id");

-- CreateIndex
CREATE UNIQUE INDEX "submission_revision_submission_id_number_key" ON "submission_revision"("submission_id", "number");

-- CreateIndex
CREATE INDEX "run_setup_id_idx" ON "run"("setup_id");

-- CreateIndex
CREATE UNIQUE INDEX "run_revision_id_entry_index_run_index_key" ON "run"("revision_id", "entry_index", "run_index");

-- CreateIndex
CREATE INDEX "current_fit_fit_id_idx" ON "current_fit"("fit_id");

-- AddForeignKey
ALTER TABLE "refresh_token" ADD CONSTRAINT "refresh_token_account_id_fkey" FOREIGN KEY ("account_id") REFERENCES "account"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "api_key" ADD CONSTRAINT "api_key_account_id_fkey" FOREIGN KEY ("account_id") REFERENCES "account"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "idempotency_record" ADD CONSTRAINT "idempotency_record_account_id_fkey" FOREIGN KEY ("account_id") REFERENCES "account"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "component" ADD CONSTRAINT "component_merged_into_id_fkey" FOREIGN KEY ("merged_into_id") REFERENCES "component"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "setup" ADD CONSTRAINT "setup_powerplant_id_fkey" FOREIGN KEY ("powerplant_id") REFERENCES "component"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "setup" ADD CONSTRAINT "setup_propeller_id_fkey" FOREIGN KEY ("propeller_id") REFERENCES "component"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "setup" ADD CONSTRAINT "setup_frame_id_fkey" FOREIGN KEY ("frame_id") REFERENCES "component"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "setup" ADD CONSTRAINT "setup_merged_into_id_fkey" FOREIGN KEY ("merged_into_id") REFERENCES "setup"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "safety_report" ADD CONSTRAINT "safety_report_setup_id_fkey" FOREIGN KEY ("setup_id") REFERENCES "setup"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "safety_report" ADD CONSTRAINT "safety_report_report_id_fkey" FOREIGN KEY ("report_id") REFERENCES "report"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "report" ADD CONSTRAINT "report_account_id_fkey" FOREIGN KEY ("account_id") REFERENCES "account"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "audit_event" ADD CONSTRAINT "audit_event_actor_id_fkey" FOREIGN KEY ("actor_id") REFERENCES "account"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "submission" ADD CONSTRAINT "submission_account_id_fkey" FOREIGN KEY ("account_id") REFERENCES "account"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "submission_revision" ADD CONSTRAINT "submission_revision_submission_id_fkey" FOREIGN KEY ("submission_id") REFERENCES "submission"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "run" ADD CONSTRAINT "run_revision_id_fkey" FOREIGN KEY ("revision_id") REFERENCES "submission_revision"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "run" ADD CONSTRAINT "run_setup_id_fkey" FOREIGN KEY ("setup_id") REFERENCES "setup"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "run_result" ADD CONSTRAINT "run_result_run_id_fkey" FOREIGN KEY ("run_id") REFERENCES "run"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "current_fit" ADD CONSTRAINT "current_fit_fit_id_fkey" FOREIGN KEY ("fit_id") REFERENCES "fit"("id") ON DELETE RESTRICT ON UPDATE CASCADE;


-- What Prisma's schema language cannot say.

CREATE INDEX "component_name_trgm_idx" ON "component" USING gin (("maker" || ' ' || "model") gin_trgm_ops);

ALTER TABLE "account" ADD CONSTRAINT "account_role_check"
  CHECK ("role" IN ('pilot', 'dealer', 'researcher', 'moderator', 'admin'));
ALTER TABLE "account" ADD CONSTRAINT "account_email_lower_check" CHECK ("email" = lower("email"));

ALTER TABLE "component" ADD CONSTRAINT "component_required_check" CHECK (
  CASE "kind"
    WHEN 'powerplant' THEN "drive" IN ('twoStroke', 'fourStroke', 'electric')
    WHEN 'propeller' THEN "diameter_cm" IS NOT NULL
    WHEN 'frame' THEN true
    WHEN 'wing' THEN "flat_area_m2" IS NOT NULL
    ELSE false
  END);
ALTER TABLE "component" ADD CONSTRAINT "component_price_check"
  CHECK (num_nulls("price_amount", "price_currency", "price_as_of") IN (0, 3));

ALTER TABLE "submission_revision" ADD CONSTRAINT "submission_revision_interest_check"
  CHECK ("interest" IN ('none', 'dealer', 'maker', 'sponsored'));

ALTER TABLE "safety_report" ADD CONSTRAINT "safety_report_state_check"
  CHECK ("state" IN ('advisory', 'doNotFly'));
ALTER TABLE "safety_report" ADD CONSTRAINT "safety_report_lifted_check"
  CHECK (num_nulls("lifted_at", "lifted_by_id", "lifted_reason") IN (0, 3));

ALTER TABLE "report" ADD CONSTRAINT "report_origin_check" CHECK ("origin" IN ('person', 'measurement'));
ALTER TABLE "report" ADD CONSTRAINT "report_kind_check" CHECK ("kind" IN ('unsafe', 'wrong'));
ALTER TABLE "report" ADD CONSTRAINT "report_subject_check"
  CHECK (num_nonnulls("setup_id", "component_id", "submission_id") > 0);
-- One account does not say one thing twice while it waits; a submission reports a setup once.
CREATE UNIQUE INDEX "report_waiting_key" ON "report" ("account_id", "kind", "setup_id", "component_id", "submission_id")
  NULLS NOT DISTINCT WHERE "origin" = 'person' AND "decided_at" IS NULL;
CREATE UNIQUE INDEX "report_measurement_key" ON "report" ("submission_id", "setup_id") WHERE "origin" = 'measurement';
CREATE INDEX "report_waiting_idx" ON "report" ("created_at", "id") WHERE "decided_at" IS NULL;

ALTER TABLE "run_result" ADD CONSTRAINT "run_result_evidence_check"
  CHECK (num_nulls("quantity", "log_value", "own_standard_uncertainty", "shared_standard_uncertainty") IN (0, 4));
ALTER TABLE "run_result" ADD CONSTRAINT "run_result_uncertainty_check"
  CHECK ("own_standard_uncertainty" >= 0 AND "shared_standard_uncertainty" >= 0);

-- Raw values, results and fits are written once.
CREATE FUNCTION refuse_update() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  RAISE EXCEPTION 'rows of % are written once and never changed', TG_TABLE_NAME
    USING ERRCODE = 'restrict_violation';
END
$$;

CREATE TRIGGER "submission_revision_is_immutable" BEFORE UPDATE ON "submission_revision"
  FOR EACH ROW EXECUTE FUNCTION refuse_update();
CREATE TRIGGER "run_is_immutable" BEFORE UPDATE OF "revision_id", "entry_index", "run_index", "kind" ON "run"
  FOR EACH ROW EXECUTE FUNCTION refuse_update();
CREATE TRIGGER "run_result_is_immutable" BEFORE UPDATE ON "run_result"
  FOR EACH ROW EXECUTE FUNCTION refuse_update();
CREATE TRIGGER "fit_is_immutable" BEFORE UPDATE ON "fit"
  FOR EACH ROW EXECUTE FUNCTION refuse_update();

-- What was reported and decided stays on record.
CREATE TRIGGER "report_is_immutable" BEFORE UPDATE OF "account_id", "origin", "kind", "text", "setup_id", "component_id", "submission_id", "created_at" ON "report"
  FOR EACH ROW EXECUTE FUNCTION refuse_update();
CREATE TRIGGER "safety_report_is_immutable" BEFORE UPDATE OF "setup_id", "state", "reason", "submission_id", "report_id", "created_at" ON "safety_report"
  FOR EACH ROW EXECUTE FUNCTION refuse_update();
CREATE TRIGGER "safety_report_is_lifted_once" BEFORE UPDATE ON "safety_report"
  FOR EACH ROW WHEN (OLD."lifted_at" IS NOT NULL) EXECUTE FUNCTION refuse_update();
CREATE TRIGGER "audit_event_is_append_only" BEFORE UPDATE OR DELETE ON "audit_event"
  FOR EACH ROW EXECUTE FUNCTION refuse_update();
CREATE TRIGGER "audit_event_is_never_emptied" BEFORE TRUNCATE ON "audit_event"
  FOR EACH STATEMENT EXECUTE FUNCTION refuse_update();
