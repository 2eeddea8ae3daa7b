-- Planning estimates that an owner chose to keep.

-- CreateTable
CREATE TABLE "outlook" (
    "id" UUID NOT NULL,
    "name" TEXT NOT NULL,
    "scenario" JSONB NOT NULL,
    "seed" BIGINT NOT NULL,
    "as_of" TIMESTAMPTZ(3) NOT NULL,
    "result" JSONB NOT NULL,
    "made_at" TIMESTAMPTZ(3) NOT NULL,
    "made_by" UUID NOT NULL,

    CONSTRAINT "outlook_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE UNIQUE INDEX "outlook_name_key" ON "outlook"("name");

-- AddForeignKey
ALTER TABLE "outlook" ADD CONSTRAINT "outlook_made_by_fkey" FOREIGN KEY ("made_by") REFERENCES "person"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

ALTER TABLE outlook ADD CONSTRAINT outlook_seed CHECK (seed BETWEEN 0 AND 4294967295);
