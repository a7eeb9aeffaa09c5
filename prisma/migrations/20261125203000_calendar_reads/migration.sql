-- What the address of a rater's calendar opens: his own visits and those that were taken from him. Where they are is
-- looked up by the service for these only: houses that looked at visits would look at each other for ever.
CREATE POLICY own_handovers ON "visit_handovers" FOR SELECT TO countercheck_app
  USING ((SELECT app_scope()) = 'calendar' AND "rater_id" = (SELECT app_user()));
CREATE POLICY calendar_visits ON "visits" FOR SELECT TO countercheck_app
  USING ((SELECT app_scope()) = 'calendar' AND ("rater_id" = (SELECT app_user())
    OR EXISTS (SELECT 1 FROM "visit_handovers" o WHERE o."visit_id" = "visits"."id")));
CREATE POLICY calendar_company ON "company" FOR SELECT TO countercheck_app
  USING ((SELECT app_scope()) = 'calendar');
