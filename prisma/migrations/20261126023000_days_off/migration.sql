-- CreateTable
CREATE TABLE "days_off" (
    "id" UUID NOT NULL,
    "rater_id" UUID,
    "from_on" DATE NOT NULL,
    "to_on" DATE NOT NULL,
    "why" TEXT NOT NULL,
    "by_name" TEXT NOT NULL,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "days_off_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE INDEX "days_off_to_on_idx" ON "days_off"("to_on");

-- CreateIndex
CREATE INDEX "days_off_rater_id_idx" ON "days_off"("rater_id");

-- AddForeignKey
ALTER TABLE "days_off" ADD CONSTRAINT "days_off_rater_id_fkey" FOREIGN KEY ("rater_id") REFERENCES "users"("id") ON DELETE CASCADE ON UPDATE CASCADE;

ALTER TABLE "days_off" ADD CONSTRAINT "days_off_in_order" CHECK ("from_on" <= "to_on");

-- Why somebody is away is the company's own business: neither builders nor links see any of it.
GRANT SELECT, INSERT, DELETE ON "days_off" TO countercheck_app;
ALTER TABLE "days_off" ENABLE ROW LEVEL SECURITY;
CREATE POLICY inside ON "days_off" FOR ALL TO countercheck_app
  USING ((SELECT app_inside())) WITH CHECK ((SELECT app_inside()));
