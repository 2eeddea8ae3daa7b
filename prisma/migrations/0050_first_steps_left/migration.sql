-- First steps of the firm that its owner left: they are no longer shown to anybody.

-- CreateTable
CREATE TABLE "first_step_left" (
    "step" TEXT NOT NULL,
    "left_by" UUID NOT NULL,
    "recorded_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "first_step_left_pkey" PRIMARY KEY ("step")
);

-- AddForeignKey
ALTER TABLE "first_step_left" ADD CONSTRAINT "first_step_left_left_by_fkey" FOREIGN KEY ("left_by") REFERENCES "person"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- ---------- rules ----------
ALTER TABLE first_step_left ADD CONSTRAINT first_step_left_known
  CHECK (step IN ('inspectors', 'licenses', 'hours', 'sizes', 'kit', 'lead', 'text', 'policy', 'onCall', 'secondFactor', 'mail', 'book', 'sign'));
