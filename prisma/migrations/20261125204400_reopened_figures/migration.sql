-- AlterTable
ALTER TABLE "house_systems" ADD COLUMN     "air_handler_at_rough" BOOLEAN;

-- AlterTable
ALTER TABLE "readings" ADD COLUMN     "figures_revision" INTEGER;

-- CreateTable
CREATE TABLE "figure_openings" (
    "id" UUID NOT NULL,
    "house_id" UUID NOT NULL,
    "reason" TEXT NOT NULL,
    "opened_by_id" UUID NOT NULL,
    "opened_by" TEXT NOT NULL,
    "opened_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "closed_at" TIMESTAMPTZ(3),

    CONSTRAINT "figure_openings_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE INDEX "figure_openings_house_id_idx" ON "figure_openings"("house_id");

-- AddForeignKey
ALTER TABLE "figure_openings" ADD CONSTRAINT "figure_openings_house_id_fkey" FOREIGN KEY ("house_id") REFERENCES "houses"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- What was opened, by whom and why, stays; only its end is added.
CREATE FUNCTION refuse_opening_change() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF (to_jsonb(NEW) - 'closed_at') IS DISTINCT FROM (to_jsonb(OLD) - 'closed_at') OR OLD."closed_at" IS NOT NULL THEN
    RAISE EXCEPTION 'an opening of figures never changes' USING ERRCODE = 'insufficient_privilege';
  END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER "figure_openings_stay" BEFORE UPDATE ON "figure_openings"
  FOR EACH ROW EXECUTE FUNCTION refuse_opening_change();

GRANT SELECT, INSERT, UPDATE ON "figure_openings" TO countercheck_app;
REVOKE DELETE ON "figure_openings" FROM countercheck_app;
ALTER TABLE "figure_openings" ENABLE ROW LEVEL SECURITY;
CREATE POLICY inside ON "figure_openings" FOR ALL TO countercheck_app
  USING ((SELECT app_inside())) WITH CHECK ((SELECT app_inside()));
-- An installer has to know whether his house is open to him.
CREATE POLICY linked_house ON "figure_openings" FOR SELECT TO countercheck_app
  USING ((SELECT app_scope()) = 'installer' AND "house_id" = (SELECT app_house()));
