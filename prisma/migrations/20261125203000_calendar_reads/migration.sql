-- What the address of a rater's calendar opens: his own visits, those that were taken from him, and where they are.
CREATE POLICY own_handovers ON "visit_handovers" FOR SELECT TO countercheck_app
  USING ((SELECT app_scope()) = 'calendar' AND "rater_id" = (SELECT app_user()));
CREATE POLICY calendar_visits ON "visits" FOR SELECT TO countercheck_app
  USING ((SELECT app_scope()) = 'calendar' AND ("rater_id" = (SELECT app_user())
    OR EXISTS (SELECT 1 FROM "visit_handovers" o WHERE o."visit_id" = "visits"."id")));
CREATE POLICY calendar_requests ON "visit_requests" FOR SELECT TO countercheck_app
  USING ((SELECT app_scope()) = 'calendar' AND EXISTS (SELECT 1 FROM "visits" v
    WHERE v."id" = "visit_requests"."visit_id" AND v."rater_id" = (SELECT app_user())));
CREATE POLICY calendar_houses ON "houses" FOR SELECT TO countercheck_app
  USING ((SELECT app_scope()) = 'calendar' AND EXISTS (SELECT 1 FROM "visits" v WHERE v."house_id" = "houses"."id"));
CREATE POLICY calendar_communities ON "communities" FOR SELECT TO countercheck_app
  USING ((SELECT app_scope()) = 'calendar' AND EXISTS (SELECT 1 FROM "houses" h WHERE h."community_id" = "communities"."id"));
CREATE POLICY calendar_builders ON "builders" FOR SELECT TO countercheck_app
  USING ((SELECT app_scope()) = 'calendar' AND EXISTS (SELECT 1 FROM "houses" h WHERE h."builder_id" = "builders"."id"));
CREATE POLICY calendar_company ON "company" FOR SELECT TO countercheck_app
  USING ((SELECT app_scope()) = 'calendar');
