-- CreateEnum
CREATE TYPE "visit_request_state" AS ENUM ('open', 'booked', 'done', 'withdrawn');

-- CreateEnum
CREATE TYPE "visit_request_source" AS ENUM ('house_ready', 'reinspection', 'retest', 'office');

-- CreateEnum
CREATE TYPE "deadline_why" AS ENUM ('before_drywall', 'before_closing', 'agreed');

-- CreateEnum
CREATE TYPE "house_access" AS ENUM ('contact', 'key', 'open');

-- CreateEnum
CREATE TYPE "readiness_kind" AS ENUM ('power', 'air_handler', 'registers', 'appliances', 'corrections');

-- CreateEnum
CREATE TYPE "not_ready_kind" AS ENUM ('no_power', 'air_handler_off', 'registers_missing', 'appliances_not_set', 'figures_missing', 'no_access', 'work_going_on', 'unsafe', 'other');

-- AlterTable
ALTER TABLE "builder_contacts" ADD COLUMN     "muted_mail" TEXT[] DEFAULT ARRAY[]::TEXT[];

-- AlterTable
ALTER TABLE "company" ADD COLUMN     "office_latitude" DOUBLE PRECISION,
ADD COLUMN     "office_longitude" DOUBLE PRECISION,
ADD COLUMN     "travel_circuity" DOUBLE PRECISION NOT NULL DEFAULT 1.3,
ADD COLUMN     "travel_speed" DOUBLE PRECISION NOT NULL DEFAULT 40;

-- AlterTable
ALTER TABLE "instruments" ADD COLUMN     "carried_by_id" UUID;

-- AlterTable
ALTER TABLE "outgoing_mail" ADD COLUMN     "unique_key" TEXT;

-- AlterTable
ALTER TABLE "users" ADD COLUMN     "muted_mail" TEXT[] DEFAULT ARRAY[]::TEXT[];

-- AlterTable
ALTER TABLE "visits" ADD COLUMN     "not_ready_kind" "not_ready_kind",
ADD COLUMN     "sequence" INTEGER NOT NULL DEFAULT 0;

-- CreateTable
CREATE TABLE "visit_requests" (
    "id" UUID NOT NULL,
    "house_id" UUID NOT NULL,
    "kind" "visit_kind" NOT NULL,
    "state" "visit_request_state" NOT NULL DEFAULT 'open',
    "source" "visit_request_source" NOT NULL,
    "earliest_on" DATE NOT NULL,
    "deadline_on" DATE,
    "deadline_why" "deadline_why",
    "minutes" INTEGER NOT NULL,
    "needs" JSONB NOT NULL,
    "access" "house_access",
    "access_note" TEXT,
    "avoid_rater_id" UUID,
    "note" TEXT,
    "withdrawn_why" TEXT,
    "visit_id" UUID,
    "reinspection_request_id" UUID,
    "retest_id" UUID,
    "asked_by_name" TEXT NOT NULL,
    "asked_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "updated_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "visit_requests_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "readiness_points" (
    "request_id" UUID NOT NULL,
    "kind" "readiness_kind" NOT NULL,
    "ready" BOOLEAN NOT NULL,
    "note" TEXT,
    "by_name" TEXT NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "readiness_points_pkey" PRIMARY KEY ("request_id","kind")
);

-- CreateTable
CREATE TABLE "readiness_links" (
    "id" UUID NOT NULL,
    "request_id" UUID NOT NULL,
    "name" TEXT NOT NULL,
    "email" TEXT,
    "token_hash" TEXT NOT NULL,
    "expires_at" TIMESTAMPTZ(3) NOT NULL,
    "revoked_at" TIMESTAMPTZ(3),
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "last_used_at" TIMESTAMPTZ(3),

    CONSTRAINT "readiness_links_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "rater_profiles" (
    "user_id" UUID NOT NULL,
    "qualifications" TEXT[],
    "working_hours" JSONB NOT NULL,
    "break_minutes" INTEGER NOT NULL DEFAULT 30,
    "starts_at_home" BOOLEAN NOT NULL DEFAULT true,
    "home_latitude" DOUBLE PRECISION,
    "home_longitude" DOUBLE PRECISION,
    "updated_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "rater_profiles_pkey" PRIMARY KEY ("user_id")
);

-- CreateTable
CREATE TABLE "visit_instruments" (
    "visit_id" UUID NOT NULL,
    "instrument_id" UUID NOT NULL,

    CONSTRAINT "visit_instruments_pkey" PRIMARY KEY ("visit_id","instrument_id")
);

-- CreateTable
CREATE TABLE "visit_handovers" (
    "visit_id" UUID NOT NULL,
    "rater_id" UUID NOT NULL,
    "starts_at" TIMESTAMPTZ(3) NOT NULL,
    "ends_at" TIMESTAMPTZ(3) NOT NULL,
    "sequence" INTEGER NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "visit_handovers_pkey" PRIMARY KEY ("visit_id","rater_id")
);

-- CreateTable
CREATE TABLE "calendar_feeds" (
    "id" UUID NOT NULL,
    "user_id" UUID NOT NULL,
    "token_hash" TEXT NOT NULL,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "revoked_at" TIMESTAMPTZ(3),
    "last_read_at" TIMESTAMPTZ(3),

    CONSTRAINT "calendar_feeds_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE UNIQUE INDEX "visit_requests_reinspection_request_id_key" ON "visit_requests"("reinspection_request_id");

-- CreateIndex
CREATE UNIQUE INDEX "visit_requests_retest_id_key" ON "visit_requests"("retest_id");

-- CreateIndex
CREATE INDEX "visit_requests_house_id_idx" ON "visit_requests"("house_id");

-- CreateIndex
CREATE INDEX "visit_requests_state_deadline_on_idx" ON "visit_requests"("state", "deadline_on");

-- CreateIndex
CREATE INDEX "visit_requests_visit_id_idx" ON "visit_requests"("visit_id");

-- CreateIndex
CREATE UNIQUE INDEX "readiness_links_token_hash_key" ON "readiness_links"("token_hash");

-- CreateIndex
CREATE INDEX "readiness_links_request_id_idx" ON "readiness_links"("request_id");

-- CreateIndex
CREATE INDEX "visit_instruments_instrument_id_idx" ON "visit_instruments"("instrument_id");

-- CreateIndex
CREATE INDEX "visit_handovers_rater_id_starts_at_idx" ON "visit_handovers"("rater_id", "starts_at");

-- CreateIndex
CREATE UNIQUE INDEX "calendar_feeds_token_hash_key" ON "calendar_feeds"("token_hash");

-- CreateIndex
CREATE INDEX "calendar_feeds_user_id_idx" ON "calendar_feeds"("user_id");

-- CreateIndex
CREATE UNIQUE INDEX "outgoing_mail_unique_key_key" ON "outgoing_mail"("unique_key");

-- AddForeignKey
ALTER TABLE "instruments" ADD CONSTRAINT "instruments_carried_by_id_fkey" FOREIGN KEY ("carried_by_id") REFERENCES "users"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "visit_requests" ADD CONSTRAINT "visit_requests_house_id_fkey" FOREIGN KEY ("house_id") REFERENCES "houses"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "visit_requests" ADD CONSTRAINT "visit_requests_avoid_rater_id_fkey" FOREIGN KEY ("avoid_rater_id") REFERENCES "users"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "visit_requests" ADD CONSTRAINT "visit_requests_visit_id_fkey" FOREIGN KEY ("visit_id") REFERENCES "visits"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "visit_requests" ADD CONSTRAINT "visit_requests_reinspection_request_id_fkey" FOREIGN KEY ("reinspection_request_id") REFERENCES "reinspection_requests"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "readiness_points" ADD CONSTRAINT "readiness_points_request_id_fkey" FOREIGN KEY ("request_id") REFERENCES "visit_requests"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "readiness_links" ADD CONSTRAINT "readiness_links_request_id_fkey" FOREIGN KEY ("request_id") REFERENCES "visit_requests"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "rater_profiles" ADD CONSTRAINT "rater_profiles_user_id_fkey" FOREIGN KEY ("user_id") REFERENCES "users"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "visit_instruments" ADD CONSTRAINT "visit_instruments_visit_id_fkey" FOREIGN KEY ("visit_id") REFERENCES "visits"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "visit_instruments" ADD CONSTRAINT "visit_instruments_instrument_id_fkey" FOREIGN KEY ("instrument_id") REFERENCES "instruments"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "visit_handovers" ADD CONSTRAINT "visit_handovers_visit_id_fkey" FOREIGN KEY ("visit_id") REFERENCES "visits"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "calendar_feeds" ADD CONSTRAINT "calendar_feeds_user_id_fkey" FOREIGN KEY ("user_id") REFERENCES "users"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- A request is asked for once: another one for the same visit of the same house is the same.
CREATE UNIQUE INDEX "visit_requests_one_open" ON "visit_requests" ("house_id", "kind")
  WHERE "state" IN ('open', 'booked') AND "kind" <> 'quality';
ALTER TABLE "visit_requests" ADD CONSTRAINT "visit_requests_booked_has_visit"
  CHECK ("state" NOT IN ('booked', 'done') OR "visit_id" IS NOT NULL);
ALTER TABLE "visit_requests" ADD CONSTRAINT "visit_requests_plausible"
  CHECK ("minutes" BETWEEN 5 AND 840 AND ("deadline_on" IS NULL OR "deadline_on" >= "earliest_on"));
-- An address that was withdrawn stays withdrawn; a rater has one that works.
CREATE UNIQUE INDEX "calendar_feeds_one_open" ON "calendar_feeds" ("user_id") WHERE "revoked_at" IS NULL;

-- Whoever changes a visit, a calendar that reads it hears of it.
CREATE FUNCTION count_visit_change() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF (NEW."starts_at", NEW."ends_at", NEW."rater_id", NEW."kind", NEW."note")
       IS DISTINCT FROM (OLD."starts_at", OLD."ends_at", OLD."rater_id", OLD."kind", OLD."note")
     OR (NEW."state" IN ('cancelled', 'not_ready')) <> (OLD."state" IN ('cancelled', 'not_ready')) THEN
    NEW."sequence" := OLD."sequence" + 1;
  END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER "visits_sequence" BEFORE UPDATE ON "visits" FOR EACH ROW EXECUTE FUNCTION count_visit_change();
CREATE FUNCTION keep_visit_handover() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  DELETE FROM "visit_handovers" WHERE "visit_id" = NEW."id" AND "rater_id" = NEW."rater_id";
  INSERT INTO "visit_handovers" ("visit_id", "rater_id", "starts_at", "ends_at", "sequence")
    VALUES (OLD."id", OLD."rater_id", OLD."starts_at", OLD."ends_at", NEW."sequence");
  RETURN NULL;
END $$;
CREATE TRIGGER "visits_handover" AFTER UPDATE ON "visits" FOR EACH ROW
  WHEN (OLD."rater_id" <> NEW."rater_id") EXECUTE FUNCTION keep_visit_handover();

DO $$
DECLARE t text;
BEGIN
  FOREACH t IN ARRAY ARRAY['visit_requests', 'readiness_points', 'readiness_links', 'rater_profiles',
                           'visit_instruments', 'visit_handovers', 'calendar_feeds'] LOOP
    EXECUTE format('GRANT SELECT, INSERT, UPDATE ON %I TO countercheck_app', t);
    EXECUTE format('ALTER TABLE %I ENABLE ROW LEVEL SECURITY', t);
    EXECUTE format('CREATE POLICY inside ON %I FOR ALL TO countercheck_app USING ((SELECT app_inside())) WITH CHECK ((SELECT app_inside()))', t);
  END LOOP;
END $$;
GRANT DELETE ON "visit_instruments", "visit_handovers" TO countercheck_app;

-- A builder sees what is asked for its houses, and answers what has to be ready.
CREATE POLICY builders_house ON "visit_requests" FOR SELECT TO countercheck_app
  USING ((SELECT app_scope()) = 'builder' AND EXISTS (SELECT 1 FROM "houses" h WHERE h."id" = "house_id"));
CREATE POLICY builders_points ON "readiness_points" FOR ALL TO countercheck_app
  USING ((SELECT app_scope()) = 'builder' AND EXISTS (SELECT 1 FROM "visit_requests" r WHERE r."id" = "request_id"))
  WITH CHECK ((SELECT app_scope()) = 'builder' AND EXISTS (SELECT 1 FROM "visit_requests" r WHERE r."id" = "request_id"));

-- What a link to a readiness list opens: one request of one house. `app.user_id` is the link.
CREATE POLICY own_readiness_link ON "readiness_links" FOR SELECT TO countercheck_app
  USING ((SELECT app_scope()) = 'contact' AND "id" = (SELECT app_user()));
CREATE POLICY linked_request ON "visit_requests" FOR SELECT TO countercheck_app
  USING ((SELECT app_scope()) = 'contact' AND "house_id" = (SELECT app_house())
    AND EXISTS (SELECT 1 FROM "readiness_links" l WHERE l."request_id" = "visit_requests"."id"));
CREATE POLICY linked_points ON "readiness_points" FOR ALL TO countercheck_app
  USING ((SELECT app_scope()) = 'contact' AND EXISTS (SELECT 1 FROM "visit_requests" r WHERE r."id" = "request_id"))
  WITH CHECK ((SELECT app_scope()) = 'contact' AND EXISTS (SELECT 1 FROM "visit_requests" r WHERE r."id" = "request_id"));
CREATE POLICY contacts_house ON "houses" FOR SELECT TO countercheck_app
  USING ((SELECT app_scope()) = 'contact' AND "id" = (SELECT app_house()));
CREATE POLICY contacts_community ON "communities" FOR SELECT TO countercheck_app
  USING ((SELECT app_scope()) = 'contact' AND EXISTS (SELECT 1 FROM "houses" h WHERE h."community_id" = "communities"."id"));
CREATE POLICY contacts_builder ON "builders" FOR SELECT TO countercheck_app
  USING ((SELECT app_scope()) = 'contact' AND EXISTS (SELECT 1 FROM "houses" h WHERE h."builder_id" = "builders"."id"));
CREATE POLICY contacts_company ON "company" FOR SELECT TO countercheck_app
  USING ((SELECT app_scope()) = 'contact');
CREATE POLICY contacts_events ON "events" FOR INSERT TO countercheck_app
  WITH CHECK ((SELECT app_scope()) = 'contact');
