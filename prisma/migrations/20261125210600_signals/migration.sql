-- CreateEnum
CREATE TYPE "signal_finding_state" AS ENUM ('open', 'ordered', 'dismissed');

-- AlterEnum
ALTER TYPE "run_kind" ADD VALUE 'signals';

-- CreateTable
CREATE TABLE "signal_runs" (
    "id" UUID NOT NULL,
    "from_on" DATE NOT NULL,
    "to_on" DATE NOT NULL,
    "result" JSONB,

    CONSTRAINT "signal_runs_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "signal_findings" (
    "id" UUID NOT NULL,
    "run_id" UUID NOT NULL,
    "signal" TEXT NOT NULL,
    "rater_id" UUID NOT NULL,
    "sentence" TEXT NOT NULL,
    "looked" INTEGER NOT NULL,
    "p" DOUBLE PRECISION NOT NULL,
    "q" DOUBLE PRECISION NOT NULL,
    "house_ids" UUID[],
    "evidence" JSONB NOT NULL,
    "state" "signal_finding_state" NOT NULL DEFAULT 'open',
    "reason" TEXT,
    "decided_by_id" UUID,
    "decided_by" TEXT,
    "decided_at" TIMESTAMPTZ(3),
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "signal_findings_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "picture_hashes" (
    "file_id" UUID NOT NULL,
    "hash" TEXT,

    CONSTRAINT "picture_hashes_pkey" PRIMARY KEY ("file_id")
);

-- CreateIndex
CREATE INDEX "signal_findings_run_id_q_idx" ON "signal_findings"("run_id", "q");

-- CreateIndex
CREATE INDEX "signal_findings_rater_id_signal_created_at_idx" ON "signal_findings"("rater_id", "signal", "created_at");

-- AddForeignKey
ALTER TABLE "signal_runs" ADD CONSTRAINT "signal_runs_id_fkey" FOREIGN KEY ("id") REFERENCES "background_runs"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "signal_findings" ADD CONSTRAINT "signal_findings_run_id_fkey" FOREIGN KEY ("run_id") REFERENCES "signal_runs"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "signal_findings" ADD CONSTRAINT "signal_findings_rater_id_fkey" FOREIGN KEY ("rater_id") REFERENCES "users"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "picture_hashes" ADD CONSTRAINT "picture_hashes_file_id_fkey" FOREIGN KEY ("file_id") REFERENCES "stored_files"("id") ON DELETE CASCADE ON UPDATE CASCADE;

DO $$
DECLARE t text;
BEGIN
  FOREACH t IN ARRAY ARRAY['signal_runs', 'signal_findings', 'picture_hashes'] LOOP
    EXECUTE format('GRANT SELECT, INSERT, UPDATE ON %I TO countercheck_app', t);
    EXECUTE format('ALTER TABLE %I ENABLE ROW LEVEL SECURITY', t);
    EXECUTE format('CREATE POLICY inside ON %I FOR ALL TO countercheck_app USING ((SELECT app_inside())) WITH CHECK ((SELECT app_inside()))', t);
  END LOOP;
END $$;
-- Findings of a look that did not come to its end are taken away.
GRANT DELETE ON "signal_findings" TO countercheck_app;
