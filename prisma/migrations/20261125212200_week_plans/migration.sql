-- CreateEnum
CREATE TYPE "planned_visit_state" AS ENUM ('kept', 'proposed', 'accepted', 'rejected');

-- AlterEnum
ALTER TYPE "run_kind" ADD VALUE 'plan';

-- AlterTable
ALTER TABLE "company" ADD COLUMN     "routing_url" TEXT;

-- CreateTable
CREATE TABLE "week_plans" (
    "id" UUID NOT NULL,
    "from_on" DATE NOT NULL,
    "to_on" DATE NOT NULL,
    "replan" BOOLEAN NOT NULL DEFAULT false,
    "rater_ids" UUID[],
    "away_rater_ids" UUID[],
    "request_ids" JSONB,
    "seconds" INTEGER NOT NULL,
    "note" TEXT,
    "result" JSONB,

    CONSTRAINT "week_plans_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "planned_visits" (
    "id" UUID NOT NULL,
    "plan_id" UUID NOT NULL,
    "state" "planned_visit_state" NOT NULL,
    "rater_id" UUID NOT NULL,
    "house_id" UUID NOT NULL,
    "kind" "visit_kind" NOT NULL,
    "request_id" UUID,
    "visit_id" UUID,
    "starts_at" TIMESTAMPTZ(3) NOT NULL,
    "ends_at" TIMESTAMPTZ(3) NOT NULL,
    "drive_minutes" DOUBLE PRECISION NOT NULL,
    "drive_km" DOUBLE PRECISION NOT NULL,
    "latitude" DOUBLE PRECISION NOT NULL,
    "longitude" DOUBLE PRECISION NOT NULL,
    "before_rater_id" UUID,
    "before_rater" TEXT,
    "before_starts_at" TIMESTAMPTZ(3),
    "before_ends_at" TIMESTAMPTZ(3),
    "refusal" TEXT,
    "decided_by" TEXT,
    "decided_at" TIMESTAMPTZ(3),

    CONSTRAINT "planned_visits_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE INDEX "planned_visits_plan_id_rater_id_starts_at_idx" ON "planned_visits"("plan_id", "rater_id", "starts_at");

-- CreateIndex
CREATE INDEX "planned_visits_house_id_idx" ON "planned_visits"("house_id");

-- CreateIndex
CREATE INDEX "planned_visits_request_id_idx" ON "planned_visits"("request_id");

-- CreateIndex
CREATE INDEX "planned_visits_visit_id_idx" ON "planned_visits"("visit_id");

-- AddForeignKey
ALTER TABLE "week_plans" ADD CONSTRAINT "week_plans_id_fkey" FOREIGN KEY ("id") REFERENCES "background_runs"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "planned_visits" ADD CONSTRAINT "planned_visits_plan_id_fkey" FOREIGN KEY ("plan_id") REFERENCES "week_plans"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "planned_visits" ADD CONSTRAINT "planned_visits_rater_id_fkey" FOREIGN KEY ("rater_id") REFERENCES "users"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "planned_visits" ADD CONSTRAINT "planned_visits_house_id_fkey" FOREIGN KEY ("house_id") REFERENCES "houses"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "planned_visits" ADD CONSTRAINT "planned_visits_request_id_fkey" FOREIGN KEY ("request_id") REFERENCES "visit_requests"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "planned_visits" ADD CONSTRAINT "planned_visits_visit_id_fkey" FOREIGN KEY ("visit_id") REFERENCES "visits"("id") ON DELETE SET NULL ON UPDATE CASCADE;

DO $$
DECLARE t text;
BEGIN
  FOREACH t IN ARRAY ARRAY['week_plans', 'planned_visits'] LOOP
    EXECUTE format('GRANT SELECT, INSERT, UPDATE ON %I TO countercheck_app', t);
    EXECUTE format('ALTER TABLE %I ENABLE ROW LEVEL SECURITY', t);
    EXECUTE format('CREATE POLICY inside ON %I FOR ALL TO countercheck_app USING ((SELECT app_inside())) WITH CHECK ((SELECT app_inside()))', t);
  END LOOP;
END $$;
-- What a plan found is taken away when it did not come to its end.
GRANT DELETE ON "planned_visits" TO countercheck_app;
