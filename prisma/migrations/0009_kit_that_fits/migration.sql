-- Kit that has to fit: what is worn in sizes, and ladders of at least some length.

-- AlterTable
ALTER TABLE "kit_kind" ADD COLUMN     "min_feet" INTEGER,
ADD COLUMN     "of_kind" TEXT,
ADD COLUMN     "worn" BOOLEAN NOT NULL DEFAULT false;

-- AlterTable
ALTER TABLE "kit_item" ADD COLUMN     "size" TEXT;

-- CreateTable
CREATE TABLE "person_size" (
    "person_id" UUID NOT NULL,
    "kind" TEXT NOT NULL,
    "size" TEXT NOT NULL,

    CONSTRAINT "person_size_pkey" PRIMARY KEY ("person_id","kind")
);

-- AddForeignKey
ALTER TABLE "person_size" ADD CONSTRAINT "person_size_person_id_fkey" FOREIGN KEY ("person_id") REFERENCES "person"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "person_size" ADD CONSTRAINT "person_size_kind_fkey" FOREIGN KEY ("kind") REFERENCES "kit_kind"("key") ON DELETE RESTRICT ON UPDATE CASCADE;


-- ---------- rules that must never break ----------
-- Pieces of another kind that are long enough are counted among it; what is worn has no length.
ALTER TABLE kit_kind ADD CONSTRAINT kit_kind_part CHECK ((of_kind IS NULL) = (min_feet IS NULL) AND min_feet BETWEEN 1 AND 60 AND of_kind <> key AND NOT (worn AND of_kind IS NOT NULL));
ALTER TABLE kit_item ADD CONSTRAINT kit_item_size CHECK (size IN ('XS', 'S', 'M', 'L', 'XL', '2XL', '3XL', '4XL'));
ALTER TABLE person_size ADD CONSTRAINT person_size_known CHECK (size IN ('XS', 'S', 'M', 'L', 'XL', '2XL', '3XL', '4XL'));

-- A firm that is set up gets the kinds; nothing is demanded until its booking rules say so.
INSERT INTO kit_kind (key, name, calibrated, carried_by_all, worn, of_kind, min_feet)
  SELECT * FROM (VALUES ('respirator', 'Respirator', false, false, true, NULL, NULL::int), ('crawl_suit', 'Crawl suit', false, false, true, NULL, NULL),
    ('ladder_28', 'Extension ladder of 28 ft and more, for two stories', false, false, false, 'ladder', 28),
    ('ladder_40', 'Extension ladder of 40 ft and more, for three stories', false, false, false, 'ladder', 40)) AS new (key, name, calibrated, carried_by_all, worn, of_kind, min_feet)
  WHERE EXISTS (SELECT FROM kit_kind WHERE kit_kind.key = coalesce(new.of_kind, kit_kind.key)) ON CONFLICT (key) DO NOTHING;
