-- Replays and recalls look back over houses and leave them as they are: they keep their own findings only.

-- CreateEnum
CREATE TYPE "run_kind" AS ENUM ('replay', 'recall');

-- CreateEnum
CREATE TYPE "run_state" AS ENUM ('waiting', 'running', 'done', 'cancelled', 'interrupted', 'failed');

-- CreateTable
CREATE TABLE "house_facts" (
    "house_id" UUID NOT NULL,
    "facts" TEXT NOT NULL,
    "first_facts" TEXT,
    "hash" TEXT NOT NULL,
    "version" INTEGER NOT NULL,
    "computed_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "house_facts_pkey" PRIMARY KEY ("house_id")
);

-- CreateTable
CREATE TABLE "background_runs" (
    "id" UUID NOT NULL,
    "kind" "run_kind" NOT NULL,
    "state" "run_state" NOT NULL DEFAULT 'waiting',
    "done" INTEGER NOT NULL DEFAULT 0,
    "total" INTEGER,
    "problem" TEXT,
    "cancel_asked" BOOLEAN NOT NULL DEFAULT false,
    "runner" TEXT,
    "heartbeat_at" TIMESTAMPTZ(3),
    "asked_by_id" UUID NOT NULL,
    "asked_by" TEXT NOT NULL,
    "asked_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "started_at" TIMESTAMPTZ(3),
    "ended_at" TIMESTAMPTZ(3),

    CONSTRAINT "background_runs_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "replays" (
    "id" UUID NOT NULL,
    "rule_set_id" UUID NOT NULL,
    "filter" JSONB NOT NULL,
    "note" TEXT,
    "result" JSONB,

    CONSTRAINT "replays_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "replay_houses" (
    "replay_id" UUID NOT NULL,
    "house_id" UUID NOT NULL,
    "rater_id" UUID,
    "reinspection" INTEGER NOT NULL,
    "changes" JSONB NOT NULL,

    CONSTRAINT "replay_houses_pkey" PRIMARY KEY ("replay_id","house_id")
);

-- CreateTable
CREATE TABLE "recalls" (
    "id" UUID NOT NULL,
    "instrument_id" UUID NOT NULL,
    "from_on" DATE NOT NULL,
    "to_on" DATE NOT NULL,
    "error" JSONB NOT NULL,
    "reason" TEXT NOT NULL,
    "note" TEXT,
    "result" JSONB,

    CONSTRAINT "recalls_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "recall_houses" (
    "recall_id" UUID NOT NULL,
    "house_id" UUID NOT NULL,
    "sealed" BOOLEAN NOT NULL,
    "revisit" BOOLEAN NOT NULL,
    "flipped" BOOLEAN NOT NULL,
    "readings" JSONB NOT NULL,
    "flips" JSONB NOT NULL,

    CONSTRAINT "recall_houses_pkey" PRIMARY KEY ("recall_id","house_id")
);

-- CreateTable
CREATE TABLE "recall_letters" (
    "id" UUID NOT NULL,
    "recall_id" UUID NOT NULL,
    "builder_id" UUID NOT NULL,
    "houses" INTEGER NOT NULL,
    "subject" TEXT NOT NULL,
    "body" TEXT NOT NULL,
    "recipients" JSONB NOT NULL DEFAULT '[]',
    "sent_at" TIMESTAMPTZ(3),
    "sent_by" TEXT,

    CONSTRAINT "recall_letters_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE INDEX "background_runs_state_asked_at_idx" ON "background_runs"("state", "asked_at");

-- CreateIndex
CREATE INDEX "background_runs_kind_asked_at_idx" ON "background_runs"("kind", "asked_at");

-- CreateIndex
CREATE INDEX "replay_houses_house_id_idx" ON "replay_houses"("house_id");

-- CreateIndex
CREATE INDEX "recalls_instrument_id_idx" ON "recalls"("instrument_id");

-- CreateIndex
CREATE INDEX "recall_houses_house_id_idx" ON "recall_houses"("house_id");

-- CreateIndex
CREATE UNIQUE INDEX "recall_letters_recall_id_builder_id_key" ON "recall_letters"("recall_id", "builder_id");

-- AddForeignKey
ALTER TABLE "house_facts" ADD CONSTRAINT "house_facts_house_id_fkey" FOREIGN KEY ("house_id") REFERENCES "houses"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "replays" ADD CONSTRAINT "replays_id_fkey" FOREIGN KEY ("id") REFERENCES "background_runs"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "replays" ADD CONSTRAINT "replays_rule_set_id_fkey" FOREIGN KEY ("rule_set_id") REFERENCES "rule_sets"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "replay_houses" ADD CONSTRAINT "replay_houses_replay_id_fkey" FOREIGN KEY ("replay_id") REFERENCES "replays"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "replay_houses" ADD CONSTRAINT "replay_houses_house_id_fkey" FOREIGN KEY ("house_id") REFERENCES "houses"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "recalls" ADD CONSTRAINT "recalls_id_fkey" FOREIGN KEY ("id") REFERENCES "background_runs"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "recalls" ADD CONSTRAINT "recalls_instrument_id_fkey" FOREIGN KEY ("instrument_id") REFERENCES "instruments"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "recall_houses" ADD CONSTRAINT "recall_houses_recall_id_fkey" FOREIGN KEY ("recall_id") REFERENCES "recalls"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "recall_houses" ADD CONSTRAINT "recall_houses_house_id_fkey" FOREIGN KEY ("house_id") REFERENCES "houses"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "recall_letters" ADD CONSTRAINT "recall_letters_recall_id_fkey" FOREIGN KEY ("recall_id") REFERENCES "recalls"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "recall_letters" ADD CONSTRAINT "recall_letters_builder_id_fkey" FOREIGN KEY ("builder_id") REFERENCES "builders"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- Read as a whole and by very many at once: no time is spent on packing what the disk has room for.
ALTER TABLE "house_facts" ALTER COLUMN "facts" SET STORAGE EXTERNAL, ALTER COLUMN "first_facts" SET STORAGE EXTERNAL;

DO $$
DECLARE t text;
BEGIN
  FOREACH t IN ARRAY ARRAY['house_facts', 'background_runs', 'replays', 'replay_houses', 'recalls', 'recall_houses', 'recall_letters'] LOOP
    EXECUTE format('GRANT SELECT, INSERT, UPDATE ON %I TO countercheck_app', t);
    EXECUTE format('ALTER TABLE %I ENABLE ROW LEVEL SECURITY', t);
    EXECUTE format('CREATE POLICY inside ON %I FOR ALL TO countercheck_app USING ((SELECT app_inside())) WITH CHECK ((SELECT app_inside()))', t);
  END LOOP;
END $$;
-- What a run found is taken away when it did not come to its end; a letter that was sent stays.
GRANT DELETE ON "replay_houses", "recall_houses" TO countercheck_app;
