-- When somebody last did something in a session: one that nobody uses ends before its time.

-- AlterTable
ALTER TABLE "session" ADD COLUMN     "last_seen_at" TIMESTAMPTZ(3);
UPDATE "session" SET "last_seen_at" = "created_at";
ALTER TABLE "session" ALTER COLUMN "last_seen_at" SET NOT NULL;
