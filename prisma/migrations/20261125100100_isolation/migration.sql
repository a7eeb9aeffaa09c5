-- What the tables alone cannot promise: no double booking, records that only grow, and outside parties
-- that see their own houses whatever a query forgets.

CREATE EXTENSION IF NOT EXISTS btree_gist;
CREATE EXTENSION IF NOT EXISTS pg_trgm;

-- A rater is in one place at a time. A visit that was cancelled or found not ready frees its time.
ALTER TABLE "visits" ADD CONSTRAINT "visits_end_after_start" CHECK ("ends_at" > "starts_at");
ALTER TABLE "visits" ADD CONSTRAINT "visits_rater_not_twice"
  EXCLUDE USING gist ("rater_id" WITH =, tstzrange("starts_at", "ends_at", '[)') WITH &&)
  WHERE ("state" NOT IN ('cancelled', 'not_ready'));

ALTER TABLE "company" ADD CONSTRAINT "company_one_row" CHECK ("id" = 1);
ALTER TABLE "users" ADD CONSTRAINT "users_builder_has_company"
  CHECK (("role" = 'builder') = ("builder_id" IS NOT NULL));
ALTER TABLE "houses" ADD CONSTRAINT "houses_plausible" CHECK (
  "conditioned_floor_area" > 0 AND "conditioned_volume" > 0 AND "bedrooms" >= 0 AND "storeys" > 0);
ALTER TABLE "item_results" ADD CONSTRAINT "item_results_status"
  CHECK ("status" IN ('pass', 'fail', 'exempt', 'not-applicable', 'waiting'));

-- Search by part of an address or lot stays quick with a hundred thousand houses.
CREATE INDEX "houses_address_trgm" ON "houses" USING gin ("address" gin_trgm_ops);

-- Who is asking. Set first in every transaction; unset means nobody and shows nothing.
CREATE FUNCTION app_scope() RETURNS text LANGUAGE sql STABLE
  AS $$ SELECT current_setting('app.scope', true) $$;
CREATE FUNCTION app_builder() RETURNS uuid LANGUAGE sql STABLE
  AS $$ SELECT nullif(current_setting('app.builder_id', true), '')::uuid $$;
CREATE FUNCTION app_house() RETURNS uuid LANGUAGE sql STABLE
  AS $$ SELECT nullif(current_setting('app.house_id', true), '')::uuid $$;
CREATE FUNCTION app_user() RETURNS uuid LANGUAGE sql STABLE
  AS $$ SELECT nullif(current_setting('app.user_id', true), '')::uuid $$;
-- `staff` are the company's own people, `system` is the service itself (sign-in, links, delivery).
CREATE FUNCTION app_inside() RETURNS boolean LANGUAGE sql STABLE
  AS $$ SELECT coalesce(current_setting('app.scope', true) IN ('staff', 'system'), false) $$;

-- Records that only grow: no update or delete, not even by the owner by accident.
CREATE FUNCTION refuse_change() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  RAISE EXCEPTION '% is append-only', TG_TABLE_NAME USING ERRCODE = 'insufficient_privilege';
END $$;
DO $$
DECLARE t text;
BEGIN
  FOREACH t IN ARRAY ARRAY['events', 'readings', 'releases'] LOOP
    EXECUTE format('CREATE TRIGGER %I BEFORE UPDATE OR DELETE ON %I FOR EACH ROW EXECUTE FUNCTION refuse_change()', t || '_append_only', t);
    EXECUTE format('CREATE TRIGGER %I BEFORE TRUNCATE ON %I FOR EACH STATEMENT EXECUTE FUNCTION refuse_change()', t || '_no_truncate', t);
  END LOOP;
END $$;

-- A published rule set never changes; only whether it is offered may.
CREATE FUNCTION refuse_rule_change() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF NEW."body" IS DISTINCT FROM OLD."body" OR NEW."hash" <> OLD."hash"
     OR NEW."key" <> OLD."key" OR NEW."version" <> OLD."version" THEN
    RAISE EXCEPTION 'a published rule set version never changes' USING ERRCODE = 'insufficient_privilege';
  END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER "rule_sets_frozen" BEFORE UPDATE ON "rule_sets" FOR EACH ROW EXECUTE FUNCTION refuse_rule_change();

-- Figures that a rater has read against stay as they were signed.
CREATE FUNCTION refuse_frozen_figures() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF NEW."figures" IS DISTINCT FROM OLD."figures" OR NEW."signed_name" <> OLD."signed_name"
     OR (OLD."frozen_at" IS NOT NULL AND NEW."frozen_at" IS DISTINCT FROM OLD."frozen_at") THEN
    RAISE EXCEPTION 'signed figures never change' USING ERRCODE = 'insufficient_privilege';
  END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER "installer_submissions_frozen" BEFORE UPDATE ON "installer_submissions"
  FOR EACH ROW EXECUTE FUNCTION refuse_frozen_figures();

GRANT USAGE ON SCHEMA public TO countercheck_app;
GRANT SELECT, INSERT, UPDATE, DELETE ON ALL TABLES IN SCHEMA public TO countercheck_app;
GRANT USAGE, SELECT ON ALL SEQUENCES IN SCHEMA public TO countercheck_app;
REVOKE UPDATE, DELETE ON "events", "readings", "releases" FROM countercheck_app;
REVOKE DELETE ON "houses", "visits", "users", "builders", "failed_items", "failed_item_entries", "item_results",
  "installer_submissions", "attachments", "stored_files", "reviews", "review_findings", "rule_sets",
  "reinspection_requests", "instruments", "instrument_calibrations" FROM countercheck_app;
GRANT DELETE ON "item_results" TO countercheck_app;
DO $$
BEGIN
  IF to_regclass('public._prisma_migrations') IS NOT NULL THEN
    EXECUTE 'REVOKE ALL ON "_prisma_migrations" FROM countercheck_app';
    EXECUTE 'GRANT SELECT ON "_prisma_migrations" TO countercheck_app';
  END IF;
END $$;

-- Row-level security. Sub-selects let PostgreSQL ask once a statement, not once a row.
DO $$
DECLARE t text;
BEGIN
  FOR t IN SELECT tablename FROM pg_tables WHERE schemaname = 'public' AND tablename <> '_prisma_migrations' LOOP
    EXECUTE format('ALTER TABLE %I ENABLE ROW LEVEL SECURITY', t);
    EXECUTE format('CREATE POLICY inside ON %I FOR ALL TO countercheck_app USING ((SELECT app_inside())) WITH CHECK ((SELECT app_inside()))', t);
  END LOOP;

  -- What a builder sees of itself.
  FOREACH t IN ARRAY ARRAY['builder_contacts', 'communities', 'plans', 'houses'] LOOP
    EXECUTE format('CREATE POLICY own_builder ON %I FOR SELECT TO countercheck_app USING ((SELECT app_scope()) = ''builder'' AND "builder_id" = (SELECT app_builder()))', t);
  END LOOP;

  -- Children of a house follow the house, for the outside party that may see the house.
  FOREACH t IN ARRAY ARRAY['house_systems', 'rooms', 'appliances', 'visits', 'item_results', 'failed_items',
                           'reinspection_requests', 'reviews', 'releases'] LOOP
    EXECUTE format('CREATE POLICY builders_house ON %I FOR SELECT TO countercheck_app USING ((SELECT app_scope()) = ''builder'' AND EXISTS (SELECT 1 FROM "houses" h WHERE h."id" = "house_id"))', t);
  END LOOP;

  -- What an installer's link opens: one house, and nothing that was measured in it.
  FOREACH t IN ARRAY ARRAY['house_systems', 'rooms', 'appliances'] LOOP
    EXECUTE format('CREATE POLICY linked_house ON %I FOR SELECT TO countercheck_app USING ((SELECT app_scope()) = ''installer'' AND "house_id" = (SELECT app_house()))', t);
  END LOOP;
END $$;

CREATE POLICY own_company ON "builders" FOR SELECT TO countercheck_app
  USING ((SELECT app_scope()) = 'builder' AND "id" = (SELECT app_builder()));
CREATE POLICY own_colleagues ON "users" FOR SELECT TO countercheck_app
  USING ((SELECT app_scope()) = 'builder' AND "builder_id" = (SELECT app_builder()));
CREATE POLICY outside_reads ON "company" FOR SELECT TO countercheck_app
  USING ((SELECT app_scope()) IN ('builder', 'installer'));
CREATE POLICY outside_reads ON "rule_sets" FOR SELECT TO countercheck_app
  USING ((SELECT app_scope()) IN ('builder', 'installer'));

-- A builder's own deeds: photos and remarks on failed items, asking for a reinspection, and the house's stage.
CREATE POLICY builders_stage ON "houses" FOR UPDATE TO countercheck_app
  USING ((SELECT app_scope()) = 'builder' AND "builder_id" = (SELECT app_builder()))
  WITH CHECK ((SELECT app_scope()) = 'builder' AND "builder_id" = (SELECT app_builder()));
CREATE POLICY builders_failed_items ON "failed_items" FOR UPDATE TO countercheck_app
  USING ((SELECT app_scope()) = 'builder' AND EXISTS (SELECT 1 FROM "houses" h WHERE h."id" = "house_id"))
  WITH CHECK ((SELECT app_scope()) = 'builder' AND EXISTS (SELECT 1 FROM "houses" h WHERE h."id" = "house_id"));
CREATE POLICY builders_entries ON "failed_item_entries" FOR SELECT TO countercheck_app
  USING ((SELECT app_scope()) = 'builder' AND EXISTS (SELECT 1 FROM "failed_items" f WHERE f."id" = "failed_item_id"));
CREATE POLICY builders_new_entries ON "failed_item_entries" FOR INSERT TO countercheck_app
  WITH CHECK ((SELECT app_scope()) = 'builder' AND EXISTS (SELECT 1 FROM "failed_items" f WHERE f."id" = "failed_item_id"));
CREATE POLICY builders_requests ON "reinspection_requests" FOR INSERT TO countercheck_app
  WITH CHECK ((SELECT app_scope()) = 'builder' AND EXISTS (SELECT 1 FROM "houses" h WHERE h."id" = "house_id"));
-- Only photos that belong to a failed item; the rater's other photos stay inside.
CREATE POLICY builders_photos ON "attachments" FOR SELECT TO countercheck_app
  USING ((SELECT app_scope()) = 'builder' AND EXISTS (SELECT 1 FROM "failed_items" f
    WHERE f."id" = "failed_item_id"));
CREATE POLICY builders_new_photos ON "attachments" FOR INSERT TO countercheck_app
  WITH CHECK ((SELECT app_scope()) = 'builder' AND EXISTS (SELECT 1 FROM "failed_items" f
    WHERE f."id" = "failed_item_id" AND f."house_id" = "attachments"."house_id"));
CREATE POLICY builders_bytes ON "stored_files" FOR SELECT TO countercheck_app
  USING ((SELECT app_scope()) = 'builder' AND EXISTS (SELECT 1 FROM "attachments" a WHERE a."file_id" = "stored_files"."id"));
CREATE POLICY builders_new_bytes ON "stored_files" FOR INSERT TO countercheck_app
  WITH CHECK ((SELECT app_scope()) = 'builder');

-- An installer's own deeds.
CREATE POLICY linked ON "houses" FOR SELECT TO countercheck_app
  USING ((SELECT app_scope()) = 'installer' AND "id" = (SELECT app_house()));
CREATE POLICY linked_stage ON "houses" FOR UPDATE TO countercheck_app
  USING ((SELECT app_scope()) = 'installer' AND "id" = (SELECT app_house()))
  WITH CHECK ((SELECT app_scope()) = 'installer' AND "id" = (SELECT app_house()));
CREATE POLICY linked_community ON "communities" FOR SELECT TO countercheck_app
  USING ((SELECT app_scope()) = 'installer' AND EXISTS (SELECT 1 FROM "houses" h WHERE h."community_id" = "communities"."id"));
CREATE POLICY linked_builder ON "builders" FOR SELECT TO countercheck_app
  USING ((SELECT app_scope()) = 'installer' AND EXISTS (SELECT 1 FROM "houses" h WHERE h."builder_id" = "builders"."id"));
CREATE POLICY own_figures ON "installer_submissions" FOR SELECT TO countercheck_app
  USING ((SELECT app_scope()) = 'installer' AND "house_id" = (SELECT app_house()));
CREATE POLICY new_figures ON "installer_submissions" FOR INSERT TO countercheck_app
  WITH CHECK ((SELECT app_scope()) = 'installer' AND "house_id" = (SELECT app_house()));
CREATE POLICY own_name ON "installers" FOR SELECT TO countercheck_app
  USING ((SELECT app_scope()) = 'installer' AND "id" = (SELECT app_user()));
CREATE POLICY own_link ON "installer_links" FOR SELECT TO countercheck_app
  USING ((SELECT app_scope()) = 'installer' AND "house_id" = (SELECT app_house()) AND "installer_id" = (SELECT app_user()));

-- Everyone who changes something writes what was done, and to whom word goes; neither is readable from outside.
CREATE POLICY outside_writes ON "events" FOR INSERT TO countercheck_app
  WITH CHECK ((SELECT app_scope()) IN ('builder', 'installer'));
CREATE POLICY outside_writes ON "outgoing_mail" FOR INSERT TO countercheck_app
  WITH CHECK ((SELECT app_scope()) IN ('builder', 'installer'));
