-- Releases of the evidence as files. The bytes stand in the database, so that the embedded one and a
-- server of one's own keep them alike, with one backup for all.

CREATE TABLE "dataset_release" (
    "id" TEXT NOT NULL,
    "number" INTEGER NOT NULL,
    "digest" TEXT NOT NULL,
    "evidence_id" TEXT NOT NULL,
    "snapshot_at" TIMESTAMPTZ(3) NOT NULL,
    "summary" JSONB NOT NULL,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "dataset_release_pkey" PRIMARY KEY ("id")
);

CREATE TABLE "dataset_file" (
    "release_id" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "position" INTEGER NOT NULL,
    "media_type" TEXT NOT NULL,
    "size_bytes" BIGINT NOT NULL,
    "sha256" TEXT NOT NULL,
    "chunk_hashes" BYTEA[],

    CONSTRAINT "dataset_file_pkey" PRIMARY KEY ("release_id","name")
);

CREATE TABLE "dataset_chunk" (
    "sha256" BYTEA NOT NULL,
    "bytes" BYTEA NOT NULL,

    CONSTRAINT "dataset_chunk_pkey" PRIMARY KEY ("sha256")
);

CREATE TABLE "dataset_request" (
    "id" UUID NOT NULL DEFAULT gen_random_uuid(),
    "requested_by_id" UUID,
    "state" TEXT NOT NULL DEFAULT 'queued',
    "progress" DOUBLE PRECISION NOT NULL DEFAULT 0,
    "step" TEXT NOT NULL DEFAULT 'waiting',
    "release_id" TEXT,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "finished_at" TIMESTAMPTZ(3),

    CONSTRAINT "dataset_request_pkey" PRIMARY KEY ("id")
);

CREATE UNIQUE INDEX "dataset_release_number_key" ON "dataset_release"("number");
CREATE UNIQUE INDEX "dataset_release_digest_key" ON "dataset_release"("digest");
CREATE INDEX "dataset_request_requested_by_id_idx" ON "dataset_request"("requested_by_id");
CREATE INDEX "dataset_request_release_id_idx" ON "dataset_request"("release_id");
CREATE INDEX "dataset_request_created_at_idx" ON "dataset_request"("created_at");

ALTER TABLE "dataset_file" ADD CONSTRAINT "dataset_file_release_id_fkey" FOREIGN KEY ("release_id") REFERENCES "dataset_release"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "dataset_request" ADD CONSTRAINT "dataset_request_requested_by_id_fkey" FOREIGN KEY ("requested_by_id") REFERENCES "account"("id") ON DELETE SET NULL ON UPDATE CASCADE;
ALTER TABLE "dataset_request" ADD CONSTRAINT "dataset_request_release_id_fkey" FOREIGN KEY ("release_id") REFERENCES "dataset_release"("id") ON DELETE SET NULL ON UPDATE CASCADE;


-- What Prisma's schema language cannot say.

ALTER TABLE "dataset_request" ADD CONSTRAINT "dataset_request_state_check"
  CHECK ("state" IN ('queued', 'running', 'published', 'unchanged', 'failed'));
ALTER TABLE "dataset_request" ADD CONSTRAINT "dataset_request_finished_check"
  CHECK (("state" IN ('queued', 'running')) = ("finished_at" IS NULL));

-- A chunk is what its name says.
ALTER TABLE "dataset_chunk" ADD CONSTRAINT "dataset_chunk_name_check" CHECK ("sha256" = sha256("bytes"));
-- Files are compressed on their way out, or are already: not once more here.
ALTER TABLE "dataset_chunk" ALTER COLUMN "bytes" SET STORAGE EXTERNAL;

-- What was cited stays.
CREATE TRIGGER "dataset_release_is_immutable" BEFORE UPDATE OR DELETE ON "dataset_release"
  FOR EACH ROW EXECUTE FUNCTION refuse_update();
CREATE TRIGGER "dataset_file_is_immutable" BEFORE UPDATE OR DELETE ON "dataset_file"
  FOR EACH ROW EXECUTE FUNCTION refuse_update();
CREATE TRIGGER "dataset_chunk_is_immutable" BEFORE UPDATE OR DELETE ON "dataset_chunk"
  FOR EACH ROW EXECUTE FUNCTION refuse_update();
CREATE TRIGGER "dataset_release_is_never_emptied" BEFORE TRUNCATE ON "dataset_release"
  FOR EACH STATEMENT EXECUTE FUNCTION refuse_update();
CREATE TRIGGER "dataset_file_is_never_emptied" BEFORE TRUNCATE ON "dataset_file"
  FOR EACH STATEMENT EXECUTE FUNCTION refuse_update();
CREATE TRIGGER "dataset_chunk_is_never_emptied" BEFORE TRUNCATE ON "dataset_chunk"
  FOR EACH STATEMENT EXECUTE FUNCTION refuse_update();
