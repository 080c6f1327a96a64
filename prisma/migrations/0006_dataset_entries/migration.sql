-- What exports need of every entry, worked out once: the cells of its runs as CSV, and the codes of
-- what could give a person away. A store of what follows from submissions: rows may be thrown away.

CREATE TABLE "dataset_entry" (
    "revision_id" UUID NOT NULL,
    "entry_index" INTEGER NOT NULL,
    "layout" TEXT NOT NULL,
    "setup_id" UUID NOT NULL,
    "runs" INTEGER NOT NULL,
    "month" INTEGER NOT NULL,
    "interest_code" INTEGER NOT NULL,
    "mass_code" INTEGER NOT NULL,
    "elevation_code" INTEGER NOT NULL,
    "wing_area_code" INTEGER NOT NULL,
    "air_motion_code" INTEGER NOT NULL,
    "cells" TEXT NOT NULL,
    "systematic" TEXT NOT NULL,

    CONSTRAINT "dataset_entry_pkey" PRIMARY KEY ("revision_id","entry_index")
);

-- Keys of live exports are drawn from it; a new one for every state of the evidence.
CREATE TABLE "dataset_salt" (
    "version" TEXT NOT NULL,
    "salt" TEXT NOT NULL,

    CONSTRAINT "dataset_salt_pkey" PRIMARY KEY ("version")
);

ALTER TABLE "dataset_entry" ADD CONSTRAINT "dataset_entry_revision_id_fkey" FOREIGN KEY ("revision_id") REFERENCES "submission_revision"("id") ON DELETE CASCADE ON UPDATE CASCADE;


-- What Prisma's schema language cannot say.

-- Read once per export, from the start to the end: not worth compressing.
ALTER TABLE "dataset_entry" ALTER COLUMN "cells" SET STORAGE EXTERNAL;
ALTER TABLE "dataset_entry" ALTER COLUMN "systematic" SET STORAGE EXTERNAL;
