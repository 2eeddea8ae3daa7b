-- Links by which a person chooses a password: whoever is new, and whoever forgot.

-- CreateTable
CREATE TABLE "password_link" (
    "token_hash" TEXT NOT NULL,
    "person_id" UUID NOT NULL,
    "expires_at" TIMESTAMPTZ(3) NOT NULL,
    "used_at" TIMESTAMPTZ(3),
    "recorded_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "password_link_pkey" PRIMARY KEY ("token_hash")
);

-- CreateIndex
CREATE INDEX "password_link_person_id_recorded_at_idx" ON "password_link"("person_id", "recorded_at");

-- AddForeignKey
ALTER TABLE "password_link" ADD CONSTRAINT "password_link_person_id_fkey" FOREIGN KEY ("person_id") REFERENCES "person"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- ---------- rules ----------
ALTER TABLE password_link ADD CONSTRAINT password_link_digest CHECK (token_hash ~ '^[0-9a-f]{64}$');
ALTER TABLE password_link ADD CONSTRAINT password_link_ends CHECK (expires_at > recorded_at AND expires_at <= recorded_at + interval '7 days');

-- It opens once, and never again.
CREATE FUNCTION password_link_once() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF OLD.used_at IS NOT NULL OR NEW.token_hash <> OLD.token_hash OR NEW.person_id <> OLD.person_id OR NEW.expires_at <> OLD.expires_at THEN PERFORM rule_broken('password_link_once'); END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER password_link_once BEFORE UPDATE ON password_link FOR EACH ROW EXECUTE FUNCTION password_link_once();
