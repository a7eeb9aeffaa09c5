-- CreateEnum
CREATE TYPE "draw_purpose" AS ENUM ('file_review', 'field_retest');

-- CreateTable
CREATE TABLE "draws" (
    "id" UUID NOT NULL,
    "title" TEXT NOT NULL,
    "purpose" "draw_purpose" NOT NULL,
    "algorithm" TEXT NOT NULL,
    "method" TEXT NOT NULL,
    "size" JSONB NOT NULL,
    "weighing" JSONB,
    "commitment" TEXT NOT NULL,
    "sealed_seed" TEXT NOT NULL,
    "committed_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "committed_by_id" UUID NOT NULL,
    "committed_by" TEXT NOT NULL,

    CONSTRAINT "draws_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "draw_frames" (
    "draw_id" UUID NOT NULL,
    "filter" JSONB NOT NULL,
    "count" INTEGER NOT NULL,
    "hash" TEXT NOT NULL,
    "lines" TEXT NOT NULL,
    "frozen_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "frozen_by_id" UUID NOT NULL,
    "frozen_by" TEXT NOT NULL,

    CONSTRAINT "draw_frames_pkey" PRIMARY KEY ("draw_id")
);

-- CreateTable
CREATE TABLE "draw_results" (
    "draw_id" UUID NOT NULL,
    "seed" TEXT NOT NULL,
    "witness" TEXT NOT NULL,
    "strata" JSONB,
    "size" INTEGER NOT NULL,
    "record_hash" TEXT NOT NULL,
    "drawn_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "drawn_by_id" UUID NOT NULL,
    "drawn_by" TEXT NOT NULL,

    CONSTRAINT "draw_results_pkey" PRIMARY KEY ("draw_id")
);

-- CreateTable
CREATE TABLE "draw_members" (
    "draw_id" UUID NOT NULL,
    "position" INTEGER NOT NULL,
    "house_id" UUID NOT NULL,
    "rater_id" UUID NOT NULL,
    "chance_of" BIGINT NOT NULL,
    "chance_in" BIGINT NOT NULL,

    CONSTRAINT "draw_members_pkey" PRIMARY KEY ("draw_id","position")
);

-- CreateTable
CREATE TABLE "draw_orders" (
    "draw_id" UUID NOT NULL,
    "due_on" DATE NOT NULL,
    "ordered" INTEGER NOT NULL,
    "already" INTEGER NOT NULL,
    "ordered_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "ordered_by_id" UUID NOT NULL,
    "ordered_by" TEXT NOT NULL,

    CONSTRAINT "draw_orders_pkey" PRIMARY KEY ("draw_id")
);

-- CreateTable
CREATE TABLE "obligation_shares" (
    "purpose" "draw_purpose" NOT NULL,
    "share" INTEGER NOT NULL,
    "minimum" INTEGER NOT NULL,
    "source" TEXT NOT NULL,
    "changed_by" TEXT NOT NULL,
    "changed_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "obligation_shares_pkey" PRIMARY KEY ("purpose")
);

-- CreateTable
CREATE TABLE "batches" (
    "id" UUID NOT NULL,
    "title" TEXT NOT NULL,
    "builder_id" UUID NOT NULL,
    "community_id" UUID NOT NULL,
    "plan_id" UUID,
    "trades" TEXT NOT NULL,
    "rules_key" TEXT NOT NULL,
    "opened_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "opened_by_id" UUID NOT NULL,
    "opened_by" TEXT NOT NULL,

    CONSTRAINT "batches_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "batch_houses" (
    "house_id" UUID NOT NULL,
    "batch_id" UUID NOT NULL,

    CONSTRAINT "batch_houses_pkey" PRIMARY KEY ("house_id")
);

-- CreateTable
CREATE TABLE "batch_events" (
    "id" BIGSERIAL NOT NULL,
    "batch_id" UUID NOT NULL,
    "sequence" INTEGER NOT NULL,
    "kind" TEXT NOT NULL,
    "house_id" UUID,
    "passed" BOOLEAN,
    "house_ids" UUID[] DEFAULT ARRAY[]::UUID[],
    "seed" TEXT,
    "by_name" TEXT NOT NULL,
    "by_id" UUID NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "batch_events_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE UNIQUE INDEX "draws_commitment_key" ON "draws"("commitment");

-- CreateIndex
CREATE INDEX "draws_committed_at_idx" ON "draws"("committed_at");

-- CreateIndex
CREATE INDEX "draw_members_house_id_idx" ON "draw_members"("house_id");

-- CreateIndex
CREATE INDEX "batches_opened_at_idx" ON "batches"("opened_at");

-- CreateIndex
CREATE INDEX "batch_houses_batch_id_idx" ON "batch_houses"("batch_id");

-- CreateIndex
CREATE UNIQUE INDEX "batch_events_batch_id_sequence_key" ON "batch_events"("batch_id", "sequence");

-- AddForeignKey
ALTER TABLE "draw_frames" ADD CONSTRAINT "draw_frames_draw_id_fkey" FOREIGN KEY ("draw_id") REFERENCES "draws"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "draw_results" ADD CONSTRAINT "draw_results_draw_id_fkey" FOREIGN KEY ("draw_id") REFERENCES "draws"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "draw_members" ADD CONSTRAINT "draw_members_draw_id_fkey" FOREIGN KEY ("draw_id") REFERENCES "draws"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "draw_members" ADD CONSTRAINT "draw_members_house_id_fkey" FOREIGN KEY ("house_id") REFERENCES "houses"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "draw_orders" ADD CONSTRAINT "draw_orders_draw_id_fkey" FOREIGN KEY ("draw_id") REFERENCES "draws"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "batches" ADD CONSTRAINT "batches_builder_id_fkey" FOREIGN KEY ("builder_id") REFERENCES "builders"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "batches" ADD CONSTRAINT "batches_community_id_fkey" FOREIGN KEY ("community_id") REFERENCES "communities"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "batches" ADD CONSTRAINT "batches_plan_id_fkey" FOREIGN KEY ("plan_id") REFERENCES "plans"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "batch_houses" ADD CONSTRAINT "batch_houses_house_id_fkey" FOREIGN KEY ("house_id") REFERENCES "houses"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "batch_houses" ADD CONSTRAINT "batch_houses_batch_id_fkey" FOREIGN KEY ("batch_id") REFERENCES "batches"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "batch_events" ADD CONSTRAINT "batch_events_batch_id_fkey" FOREIGN KEY ("batch_id") REFERENCES "batches"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- A draw that could be changed afterwards would prove nothing; a batch's history neither.
DO $$
DECLARE t text;
BEGIN
  FOREACH t IN ARRAY ARRAY['draws', 'draw_frames', 'draw_results', 'draw_members', 'draw_orders', 'batches', 'batch_houses', 'batch_events'] LOOP
    EXECUTE format('CREATE TRIGGER %I BEFORE UPDATE OR DELETE ON %I FOR EACH ROW EXECUTE FUNCTION refuse_change()', t || '_append_only', t);
    EXECUTE format('CREATE TRIGGER %I BEFORE TRUNCATE ON %I FOR EACH STATEMENT EXECUTE FUNCTION refuse_change()', t || '_no_truncate', t);
    EXECUTE format('GRANT SELECT, INSERT ON %I TO countercheck_app', t);
  END LOOP;
  GRANT SELECT, INSERT, UPDATE ON "obligation_shares" TO countercheck_app;
  GRANT USAGE, SELECT ON SEQUENCE "batch_events_id_seq" TO countercheck_app;
  FOREACH t IN ARRAY ARRAY['draws', 'draw_frames', 'draw_results', 'draw_members', 'draw_orders', 'batches', 'batch_houses', 'batch_events', 'obligation_shares'] LOOP
    EXECUTE format('ALTER TABLE %I ENABLE ROW LEVEL SECURITY', t);
    EXECUTE format('CREATE POLICY inside ON %I FOR ALL TO countercheck_app USING ((SELECT app_inside())) WITH CHECK ((SELECT app_inside()))', t);
  END LOOP;
END $$;

ALTER TABLE "obligation_shares" ADD CONSTRAINT "obligation_shares_plausible" CHECK ("share" BETWEEN 1 AND 10000 AND "minimum" >= 1);
ALTER TABLE "batch_events" ADD CONSTRAINT "batch_events_kind" CHECK ("kind" IN ('tested', 'retested', 'set-opened'));
ALTER TABLE "draws" ADD CONSTRAINT "draws_method" CHECK ("method" IN ('simple', 'stratified', 'systematic', 'risk-weighted'));
