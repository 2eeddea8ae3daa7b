-- Jobs and callbacks of each pair by kind of house, summed up from month to month: what lies between two months is one difference,
-- so that the figures of people cost the same for three years as for ten.

-- CreateTable
CREATE TABLE "mix_sum" (
    "value" TEXT NOT NULL,
    "first" DATE NOT NULL,
    "jobs" INTEGER[],
    "callbacks" INTEGER[],

    CONSTRAINT "mix_sum_pkey" PRIMARY KEY ("value")
);

-- ---------- rules ----------
ALTER TABLE mix_sum ADD CONSTRAINT mix_sum_whole CHECK (extract(day FROM first) = 1 AND cardinality(jobs) = cardinality(callbacks) AND cardinality(jobs) > 0);
