-- The state of each property, the size of paper, files of a job for a request of records, wordings that an attorney locked.

-- AlterTable
ALTER TABLE "firm" ADD COLUMN     "paper_size" TEXT NOT NULL DEFAULT 'letter';

-- AlterTable
ALTER TABLE "property" ADD COLUMN     "state" TEXT NOT NULL DEFAULT '';

-- AlterTable
ALTER TABLE "agreement_text" ADD COLUMN     "locked" TEXT[] DEFAULT ARRAY[]::TEXT[];

-- AlterTable
ALTER TABLE "mail_wording" ADD COLUMN     "attorney" TEXT,
ADD COLUMN     "attorney_on" DATE;

-- CreateTable
CREATE TABLE "job_file" (
    "id" UUID NOT NULL,
    "job_id" UUID NOT NULL,
    "for_whom" TEXT NOT NULL,
    "reason" TEXT NOT NULL,
    "opinions" BOOLEAN NOT NULL,
    "name" TEXT NOT NULL,
    "file_sha256" TEXT NOT NULL,
    "pages" INTEGER NOT NULL,
    "parts" JSONB NOT NULL,
    "held_back" JSONB NOT NULL,
    "made_by" UUID NOT NULL,
    "recorded_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "job_file_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE INDEX "job_file_job_id_idx" ON "job_file"("job_id");

-- CreateIndex
CREATE INDEX "job_file_file_sha256_idx" ON "job_file"("file_sha256");

-- AddForeignKey
ALTER TABLE "job_file" ADD CONSTRAINT "job_file_job_id_fkey" FOREIGN KEY ("job_id") REFERENCES "job"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "job_file" ADD CONSTRAINT "job_file_file_sha256_fkey" FOREIGN KEY ("file_sha256") REFERENCES "stored_file"("sha256") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "job_file" ADD CONSTRAINT "job_file_made_by_fkey" FOREIGN KEY ("made_by") REFERENCES "person"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- ---------- rules that must never break ----------
ALTER TABLE firm ADD CONSTRAINT firm_paper_size CHECK (paper_size IN ('letter', 'a4'));
ALTER TABLE property ADD CONSTRAINT property_state CHECK (state = '' OR state ~ '^US-[A-Z]{2}$');
ALTER TABLE mail_wording ADD CONSTRAINT mail_wording_attorney CHECK ((attorney IS NULL) = (attorney_on IS NULL) AND (attorney IS NULL OR body IS NOT NULL));
ALTER TABLE job_file ADD CONSTRAINT job_file_says CHECK (pages > 0 AND length(btrim(for_whom)) > 0 AND length(btrim(reason)) >= 10);
ALTER TABLE remedy DROP CONSTRAINT remedy_known;
ALTER TABLE remedy ADD CONSTRAINT remedy_known CHECK (kind IN ('revisit', 'supplement', 'fee_refund', 'goodwill_payment', 'independent_contractor', 'own_repair', 'declined', 'insurer_notice') AND state IN ('proposed', 'approved', 'refused', 'done') AND cents >= 0);

-- An attorney's review is recorded once, with the clauses that may not be reworded without a new one.
CREATE OR REPLACE FUNCTION check_agreement_text() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF OLD.state = 'draft' THEN RETURN CASE WHEN TG_OP = 'DELETE' THEN OLD ELSE NEW END; END IF;
  IF TG_OP = 'DELETE' OR NEW.state = 'draft' OR (OLD.state = 'withdrawn' AND NEW.state <> 'withdrawn') OR (OLD.attorney IS NOT NULL AND (NEW.attorney, NEW.attorney_on, NEW.locked) IS DISTINCT FROM (OLD.attorney, OLD.attorney_on, OLD.locked))
    OR (NEW.attorney IS NULL AND NEW.locked IS DISTINCT FROM OLD.locked)
    OR (to_jsonb(NEW) - ARRAY['state', 'withdrawn_at', 'attorney', 'attorney_on', 'locked']) IS DISTINCT FROM (to_jsonb(OLD) - ARRAY['state', 'withdrawn_at', 'attorney', 'attorney_on', 'locked'])
  THEN PERFORM rule_broken('agreement_text_fixed'); END IF;
  RETURN NEW;
END $$;

CREATE TRIGGER history_is_kept BEFORE UPDATE OR DELETE ON job_file FOR EACH ROW EXECUTE FUNCTION refuse_change();
CREATE TRIGGER history_is_not_emptied BEFORE TRUNCATE ON job_file FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
DO $$
BEGIN
  IF EXISTS (SELECT FROM pg_roles WHERE rolname = 'backsight_app') THEN REVOKE UPDATE, DELETE, TRUNCATE ON job_file FROM backsight_app; END IF;
END $$;

-- ---------- what a firm that is already set up gains ----------
-- The state by the first three digits of the ZIP code; else that of the office of the property's jobs.
UPDATE property p SET state = coalesce(
  (SELECT r.state FROM (VALUES (5, 5, 'US-NY'), (6, 7, 'US-PR'), (8, 8, 'US-VI'), (9, 9, 'US-PR'), (10, 27, 'US-MA'), (28, 29, 'US-RI'), (30, 38, 'US-NH'), (39, 49, 'US-ME'), (50, 54, 'US-VT'), (55, 55, 'US-MA'), (56, 59, 'US-VT'), (60, 69, 'US-CT'), (70, 89, 'US-NJ'), (100, 149, 'US-NY'), (150, 196, 'US-PA'), (197, 199, 'US-DE'), (200, 200, 'US-DC'), (201, 201, 'US-VA'), (202, 205, 'US-DC'), (206, 219, 'US-MD'), (220, 246, 'US-VA'), (247, 268, 'US-WV'), (270, 289, 'US-NC'), (290, 299, 'US-SC'), (300, 319, 'US-GA'), (320, 339, 'US-FL'), (341, 349, 'US-FL'), (350, 369, 'US-AL'), (370, 385, 'US-TN'), (386, 397, 'US-MS'), (398, 399, 'US-GA'), (400, 427, 'US-KY'), (430, 459, 'US-OH'), (460, 479, 'US-IN'), (480, 499, 'US-MI'), (500, 528, 'US-IA'), (530, 549, 'US-WI'), (550, 567, 'US-MN'), (569, 569, 'US-DC'), (570, 577, 'US-SD'), (580, 588, 'US-ND'), (590, 599, 'US-MT'), (600, 629, 'US-IL'), (630, 658, 'US-MO'), (660, 679, 'US-KS'), (680, 693, 'US-NE'), (700, 714, 'US-LA'), (716, 729, 'US-AR'), (730, 731, 'US-OK'), (733, 733, 'US-TX'), (734, 749, 'US-OK'), (750, 799, 'US-TX'), (800, 816, 'US-CO'), (820, 831, 'US-WY'), (832, 838, 'US-ID'), (840, 847, 'US-UT'), (850, 865, 'US-AZ'), (870, 884, 'US-NM'), (885, 885, 'US-TX'), (889, 898, 'US-NV'), (900, 961, 'US-CA'), (967, 968, 'US-HI'), (969, 969, 'US-GU'), (970, 979, 'US-OR'), (980, 994, 'US-WA'), (995, 999, 'US-AK')) AS r(first, last, state)
    WHERE p.zip ~ '^[0-9]{5}' AND substr(p.zip, 1, 3)::int BETWEEN r.first AND r.last),
  (SELECT o.jurisdiction FROM job j JOIN office o ON o.id = j.office_id WHERE j.property_id = p.id AND o.jurisdiction ~ '^US-[A-Z]{2}$' ORDER BY j.number LIMIT 1),
  '');

-- When a report is due by the rules of a state: read anew, as a new version.
INSERT INTO rule_pack (id, jurisdiction, version_day, body)
  SELECT gen_random_uuid(), pack.jurisdiction, pack.version_day, pack.body FROM (VALUES
    ('US-TX', DATE '2026-11-28', '{"name":"Texas","rows":[{"key":"standard","topic":"standard","words":"Standards of practice in seven sections.","citation":"22 TAC 535.227 to 535.233","certainty":"found","effect":{"kind":"standard","name":"the Texas standards of practice, 22 TAC 535.227 to 535.233"},"fromDay":null,"untilDay":null},{"key":"written-first","topic":"agreement","words":"No rule on the form of the agreement was seen. That it is signed before the visit is policy of the firm; no law is claimed for it.","citation":"no rule seen","certainty":"none","effect":null,"fromDay":null,"untilDay":null},{"key":"cap","topic":"cap","words":"No rule on limits of liability was seen; that does not mean that there is none.","citation":"no rule seen","certainty":"none","effect":null,"fromDay":null,"untilDay":null},{"key":"claim-negligence","topic":"claim","words":"2 years for negligence; the start was not read and is taken as completion.","citation":"Tex. CPRC 16.003","certainty":"memory","effect":{"kind":"claim_time","years":2,"from":"completed"},"fromDay":null,"untilDay":null},{"key":"claim-contract","topic":"claim","words":"4 years for contracts; the start is taken as completion.","citation":"Tex. CPRC 16.004, 16.051","certainty":"memory","effect":{"kind":"claim_time","years":4,"from":"completed"},"fromDay":null,"untilDay":null},{"key":"keep-records","topic":"records","words":"The report is kept 2 years.","citation":"state rules, not checked","certainty":"memory","effect":{"kind":"keep","years":2,"from":"delivered"},"fromDay":null,"untilDay":null},{"key":"insurance-proof","topic":"records","words":"Proof of continuous liability cover for the license period before, 2 years.","citation":"state agency, answers to questions","certainty":"found","effect":null,"fromDay":null,"untilDay":null},{"key":"report-due","topic":"report","words":"The report within 2 days unless agreed otherwise; the start was not read and is taken as the day of the inspection.","citation":"22 TAC 535.222","certainty":"memory","effect":{"kind":"report_due","days":2,"unit":"days","from":"inspected","unlessAgreed":true},"fromDay":null,"untilDay":null},{"key":"repairs","topic":"repairs","words":"Rules against repairing or soliciting repair on inspected homes; for how long was not read.","citation":"22 TAC 535.220","certainty":"memory","effect":{"kind":"no_paid_repairs","months":null},"fromDay":null,"untilDay":null},{"key":"education","topic":"education","words":"32 hours in each two years.","citation":"not checked","certainty":"memory","effect":null,"fromDay":null,"untilDay":null}]}'::jsonb),
    ('US-NC', DATE '2026-11-28', '{"name":"North Carolina","rows":[{"key":"written-first","topic":"agreement","words":"A signed written contract before the inspection, with services, cost and exclusions.","citation":"11 NCAC 08 .1103, .1104","certainty":"memory","effect":{"kind":"written_first","fields":["services","fee"]},"fromDay":null,"untilDay":null},{"key":"cap","topic":"cap","words":"No rule on limits of liability was seen; that does not mean that there is none.","citation":"no rule seen","certainty":"none","effect":null,"fromDay":null,"untilDay":null},{"key":"claim","topic":"claim","words":"3 years for contract and negligence; the start is taken as completion.","citation":"N.C.G.S. 1-52","certainty":"memory","effect":{"kind":"claim_time","years":3,"from":"completed"},"fromDay":null,"untilDay":null},{"key":"keep-records","topic":"records","words":"3 years.","citation":"state rules, not checked","certainty":"memory","effect":{"kind":"keep","years":3,"from":"delivered"},"fromDay":null,"untilDay":null},{"key":"report-due","topic":"report","words":"The report within 3 business days; the start was not read and is taken as the day of the inspection.","citation":"N.C.G.S. 143-151.58","certainty":"memory","effect":{"kind":"report_due","days":3,"unit":"businessDays","from":"inspected","unlessAgreed":false},"fromDay":null,"untilDay":null}]}'::jsonb),
    ('US-MD', DATE '2026-11-28', '{"name":"Maryland","rows":[{"key":"written-first","topic":"agreement","words":"No rule on the form of the agreement was seen. That it is signed before the visit is policy of the firm; no law is claimed for it.","citation":"no rule seen","certainty":"none","effect":null,"fromDay":null,"untilDay":null},{"key":"cap","topic":"cap","words":"A limit of liability must be agreed in writing before the work; of the section only the heading was read.","citation":"Md. Code, Bus. Occ. & Prof. 16-4A-01","certainty":"memory","effect":null,"fromDay":null,"untilDay":null},{"key":"claim","topic":"claim","words":"No time to bring a claim was read for this state. Ask an attorney.","citation":"no rule seen","certainty":"none","effect":null,"fromDay":null,"untilDay":null},{"key":"keep-records","topic":"records","words":"Contract, report and all supporting data, 5 years from delivery; anew for 5 years after a dispute ends once notice of litigation was given.","citation":"Md. Code, Bus. Occ. & Prof. 16-4A-05","certainty":"found","effect":{"kind":"keep","years":5,"from":"delivered"},"fromDay":null,"untilDay":null},{"key":"report-due","topic":"report","words":"The report within 7 business days; the start was not read and is taken as the day of the inspection.","citation":"Md. Code, Bus. Occ. & Prof. 16-4A-01","certainty":"memory","effect":{"kind":"report_due","days":7,"unit":"businessDays","from":"inspected","unlessAgreed":false},"fromDay":null,"untilDay":null},{"key":"education","topic":"education","words":"30 hours for each renewal of two years.","citation":"state overview page","certainty":"second_hand","effect":null,"fromDay":null,"untilDay":null}]}'::jsonb)
  ) AS pack(jurisdiction, version_day, body)
  WHERE EXISTS (SELECT FROM firm) ON CONFLICT (jurisdiction, version_day) DO NOTHING;
