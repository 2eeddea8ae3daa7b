-- A search of a list that a person gave a name: everybody's own, found again at the list and in the go-to box.

-- CreateTable
CREATE TABLE "kept_search" (
    "id" UUID NOT NULL,
    "person_id" UUID NOT NULL,
    "list" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "search" TEXT NOT NULL,
    "recorded_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "kept_search_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE UNIQUE INDEX "kept_search_person_id_list_name_key" ON "kept_search"("person_id", "list", "name");

-- AddForeignKey
ALTER TABLE "kept_search" ADD CONSTRAINT "kept_search_person_id_fkey" FOREIGN KEY ("person_id") REFERENCES "person"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- ---------- rules ----------
-- It leads to a list of the service and nowhere else.
ALTER TABLE kept_search ADD CONSTRAINT kept_search_of_a_list CHECK (list ~ '^/[a-z]+([-/][a-z]+)*$' AND search ~ '^[?]' AND length(search) <= 1000);
ALTER TABLE kept_search ADD CONSTRAINT kept_search_named CHECK (btrim(name) <> '' AND length(name) <= 60);
