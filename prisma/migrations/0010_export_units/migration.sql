-- Keys and classes of a state of the evidence, worked out once and read by all live exports of it.

DROP TABLE "dataset_salt";

CREATE TABLE "export_state" (
    "version" TEXT NOT NULL,
    "salt" TEXT NOT NULL,
    "is_whole" BOOLEAN NOT NULL,

    CONSTRAINT "export_state_pkey" PRIMARY KEY ("version")
);

CREATE TABLE "export_unit" (
    "position" INTEGER NOT NULL,
    "revision_id" UUID NOT NULL,
    "entry_index" INTEGER NOT NULL,
    "setup_id" UUID NOT NULL,
    "session_key" TEXT NOT NULL,
    "pilot_key" TEXT NOT NULL,
    "shown" TEXT NOT NULL,

    CONSTRAINT "export_unit_pkey" PRIMARY KEY ("position")
);

-- Entries of an earlier layout, and revisions without any, are looked for whenever the evidence changed.
CREATE INDEX "dataset_entry_layout_revision_id_idx" ON "dataset_entry"("layout", "revision_id");


-- What Prisma's schema language cannot say.

-- A crash empties both, and the next export works them out anew: no log of their writes is worth its room.
ALTER TABLE "export_state" SET UNLOGGED;
ALTER TABLE "export_unit" SET UNLOGGED;

-- Exports of a state read the stored entries: where one goes or changes, the state goes too.
CREATE FUNCTION forget_export_state() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  DELETE FROM export_state;
  RETURN NULL;
END
$$;

CREATE TRIGGER "dataset_entry_is_what_exports_read" AFTER UPDATE OR DELETE OR TRUNCATE ON "dataset_entry"
  FOR EACH STATEMENT EXECUTE FUNCTION forget_export_state();
