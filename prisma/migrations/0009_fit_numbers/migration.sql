-- The numbers of a fit are doubles that hardly compress; trying took longer than writing them.
ALTER TABLE "fit" ALTER COLUMN "numbers" SET STORAGE EXTERNAL;
