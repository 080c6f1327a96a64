-- Flights of a day are looked for where one may have been submitted twice.
CREATE INDEX "submission_revision_flown_on_idx" ON "submission_revision"("flown_on");

-- Work that is followed. Of a release: how often its making began, so that one that ends the service each
-- time is given up. Of an import: how far it is, and what it came to.

ALTER TABLE "dataset_request" ADD COLUMN "attempts" INTEGER NOT NULL DEFAULT 0;

CREATE TABLE "import_request" (
    "id" UUID NOT NULL DEFAULT gen_random_uuid(),
    "account_id" UUID NOT NULL,
    "state" TEXT NOT NULL DEFAULT 'running',
    "progress" DOUBLE PRECISION NOT NULL DEFAULT 0,
    "step" TEXT NOT NULL DEFAULT 'waiting',
    "import_id" UUID,
    "problem" JSONB,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "finished_at" TIMESTAMPTZ(3),

    CONSTRAINT "import_request_pkey" PRIMARY KEY ("id")
);

CREATE INDEX "import_request_account_id_idx" ON "import_request"("account_id");
CREATE INDEX "import_request_import_id_idx" ON "import_request"("import_id");

ALTER TABLE "import_request" ADD CONSTRAINT "import_request_account_id_fkey" FOREIGN KEY ("account_id") REFERENCES "account"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "import_request" ADD CONSTRAINT "import_request_import_id_fkey" FOREIGN KEY ("import_id") REFERENCES "data_import"("id") ON DELETE SET NULL ON UPDATE CASCADE;


-- What Prisma's schema language cannot say.

ALTER TABLE "import_request" ADD CONSTRAINT "import_request_state_check"
  CHECK ("state" IN ('running', 'done', 'refused', 'failed'));
ALTER TABLE "import_request" ADD CONSTRAINT "import_request_finished_check"
  CHECK (("state" = 'running') = ("finished_at" IS NULL));
