-- What is made after a fit stands beside it, so that answers need not wait for it; and what a fit finds
-- odd goes to the moderators, who may set it aside.

CREATE TABLE "fit_companion" (
    "fit_id" TEXT NOT NULL,
    "without_interested_id" TEXT,
    "robust_id" TEXT,
    "report" JSONB,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "fit_companion_pkey" PRIMARY KEY ("fit_id")
);

ALTER TABLE "report" ADD COLUMN "revision_number" INTEGER;
ALTER TABLE "report" ADD COLUMN "sets_aside" BOOLEAN NOT NULL DEFAULT false;

CREATE INDEX "fit_companion_without_interested_id_idx" ON "fit_companion"("without_interested_id");
CREATE INDEX "fit_companion_robust_id_idx" ON "fit_companion"("robust_id");

ALTER TABLE "fit_companion" ADD CONSTRAINT "fit_companion_fit_id_fkey" FOREIGN KEY ("fit_id") REFERENCES "fit"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "fit_companion" ADD CONSTRAINT "fit_companion_without_interested_id_fkey" FOREIGN KEY ("without_interested_id") REFERENCES "fit"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "fit_companion" ADD CONSTRAINT "fit_companion_robust_id_fkey" FOREIGN KEY ("robust_id") REFERENCES "fit"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- Fits of before kept these in their header.
INSERT INTO "fit_companion" ("fit_id", "without_interested_id", "robust_id", "report")
SELECT "id", "header" #>> '{about,siblings,withoutInterested}', "header" #>> '{about,siblings,robust}',
       NULLIF("header" #> '{about,report}', 'null'::jsonb)
  FROM "fit" WHERE jsonb_typeof("header" #> '{about,siblings}') = 'object';

-- What Prisma's schema language cannot say.

CREATE TRIGGER "fit_companion_is_immutable" BEFORE UPDATE ON "fit_companion"
  FOR EACH ROW EXECUTE FUNCTION refuse_update();

ALTER TABLE "report" DROP CONSTRAINT "report_origin_check";
ALTER TABLE "report" ADD CONSTRAINT "report_origin_check" CHECK ("origin" IN ('person', 'measurement', 'fit'));
ALTER TABLE "report" DROP CONSTRAINT "report_kind_check";
ALTER TABLE "report" ADD CONSTRAINT "report_kind_check" CHECK ("kind" IN ('unsafe', 'wrong', 'outlier'));
-- An outlier is a revision that a fit found odd; only that can be set aside.
ALTER TABLE "report" ADD CONSTRAINT "report_outlier_check" CHECK (
  CASE WHEN "kind" = 'outlier'
    THEN "origin" = 'fit' AND "submission_id" IS NOT NULL AND "revision_number" IS NOT NULL
    ELSE "origin" <> 'fit' AND "revision_number" IS NULL AND NOT "sets_aside"
  END);
CREATE UNIQUE INDEX "report_outlier_key" ON "report" ("submission_id", "revision_number") WHERE "kind" = 'outlier';

DROP TRIGGER "report_is_immutable" ON "report";
CREATE TRIGGER "report_is_immutable" BEFORE UPDATE OF "account_id", "origin", "kind", "text", "setup_id", "component_id", "submission_id", "revision_number", "created_at" ON "report"
  FOR EACH ROW EXECUTE FUNCTION refuse_update();
