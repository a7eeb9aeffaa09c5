-- AlterTable
ALTER TABLE "outgoing_mail" ADD COLUMN     "contact_id" UUID;

-- CreateTable
CREATE TABLE "contact_mail_links" (
    "id" UUID NOT NULL,
    "contact_id" UUID NOT NULL,
    "token_hash" TEXT NOT NULL,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "revoked_at" TIMESTAMPTZ(3),
    "last_used_at" TIMESTAMPTZ(3),

    CONSTRAINT "contact_mail_links_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE UNIQUE INDEX "contact_mail_links_token_hash_key" ON "contact_mail_links"("token_hash");

-- CreateIndex
CREATE INDEX "contact_mail_links_contact_id_idx" ON "contact_mail_links"("contact_id");

-- CreateIndex
CREATE INDEX "outgoing_mail_contact_id_idx" ON "outgoing_mail"("contact_id");

-- AddForeignKey
ALTER TABLE "outgoing_mail" ADD CONSTRAINT "outgoing_mail_contact_id_fkey" FOREIGN KEY ("contact_id") REFERENCES "builder_contacts"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "contact_mail_links" ADD CONSTRAINT "contact_mail_links_contact_id_fkey" FOREIGN KEY ("contact_id") REFERENCES "builder_contacts"("id") ON DELETE CASCADE ON UPDATE CASCADE;

GRANT SELECT, INSERT, UPDATE ON "contact_mail_links" TO countercheck_app;
ALTER TABLE "contact_mail_links" ENABLE ROW LEVEL SECURITY;
CREATE POLICY inside ON "contact_mail_links" FOR ALL TO countercheck_app
  USING ((SELECT app_inside())) WITH CHECK ((SELECT app_inside()));

-- What the link in a contact's mail opens: the contact itself, and what it wants to hear of. `app.user_id` is the
-- contact. What is changed of it is changed by the service.
CREATE POLICY recipients_contact ON "builder_contacts" FOR SELECT TO countercheck_app
  USING ((SELECT app_scope()) = 'recipient' AND "id" = (SELECT app_user()));
CREATE POLICY recipients_company ON "company" FOR SELECT TO countercheck_app
  USING ((SELECT app_scope()) = 'recipient');
CREATE POLICY recipients_events ON "events" FOR INSERT TO countercheck_app
  WITH CHECK ((SELECT app_scope()) = 'recipient');

-- Visits that exchange their times stand in each other's way while they move: a plan that is accepted may have the
-- rule checked when all of them have moved. Every other change is checked at once, as before.
ALTER TABLE "visits" DROP CONSTRAINT "visits_rater_not_twice";
ALTER TABLE "visits" ADD CONSTRAINT "visits_rater_not_twice"
  EXCLUDE USING gist ("rater_id" WITH =, tstzrange("starts_at", "ends_at", '[)') WITH &&)
  WHERE ("state" NOT IN ('cancelled', 'not_ready')) DEFERRABLE INITIALLY IMMEDIATE;
