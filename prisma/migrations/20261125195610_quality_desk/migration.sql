-- CreateEnum
CREATE TYPE "quality_source" AS ENUM ('draw', 'signal', 'manual', 'corrective');

-- CreateEnum
CREATE TYPE "file_review_state" AS ENUM ('open', 'done', 'appealed', 'withdrawn');

-- CreateEnum
CREATE TYPE "file_review_outcome" AS ENUM ('clean', 'findings');

-- CreateEnum
CREATE TYPE "review_mark" AS ENUM ('ok', 'finding', 'not_applicable');

-- CreateEnum
CREATE TYPE "file_finding_state" AS ENUM ('open', 'answered', 'appealed', 'settled', 'struck');

-- CreateEnum
CREATE TYPE "appeal_decision" AS ENUM ('upheld', 'changed', 'struck');

-- CreateEnum
CREATE TYPE "retest_state" AS ENUM ('ordered', 'booked', 'done', 'withdrawn');

-- CreateEnum
CREATE TYPE "retest_outcome" AS ENUM ('agrees', 'differs');

-- CreateEnum
CREATE TYPE "corrective_subject" AS ENUM ('rater', 'builder');

-- CreateEnum
CREATE TYPE "corrective_state" AS ENUM ('open', 'closed');

-- CreateTable
CREATE TABLE "file_reviews" (
    "id" UUID NOT NULL,
    "house_id" UUID NOT NULL,
    "revision" INTEGER NOT NULL,
    "rater_id" UUID NOT NULL,
    "source" "quality_source" NOT NULL,
    "draw_id" UUID,
    "signal_id" UUID,
    "corrective_id" UUID,
    "reason" TEXT,
    "due_on" DATE NOT NULL,
    "state" "file_review_state" NOT NULL DEFAULT 'open',
    "reviewer_id" UUID,
    "checklist_key" TEXT,
    "checklist_version" TEXT,
    "started_at" TIMESTAMPTZ(3),
    "done_at" TIMESTAMPTZ(3),
    "outcome" "file_review_outcome",
    "note" TEXT,
    "times_reopened" INTEGER NOT NULL DEFAULT 0,
    "ordered_by_id" UUID,
    "ordered_by" TEXT NOT NULL,
    "ordered_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "file_reviews_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "file_review_marks" (
    "file_review_id" UUID NOT NULL,
    "step" TEXT NOT NULL,
    "mark" "review_mark" NOT NULL,
    "marked_by_id" UUID NOT NULL,
    "marked_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "file_review_marks_pkey" PRIMARY KEY ("file_review_id","step")
);

-- CreateTable
CREATE TABLE "file_review_findings" (
    "id" UUID NOT NULL,
    "file_review_id" UUID NOT NULL,
    "step" TEXT NOT NULL,
    "check" TEXT NOT NULL,
    "automatic" BOOLEAN NOT NULL DEFAULT false,
    "severity" "finding_severity" NOT NULL,
    "text" TEXT NOT NULL,
    "responsible_id" UUID NOT NULL,
    "due_on" DATE NOT NULL,
    "state" "file_finding_state" NOT NULL DEFAULT 'open',
    "raised_by_id" UUID NOT NULL,
    "raised_by" TEXT NOT NULL,
    "raised_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "answer" TEXT,
    "answered_by_id" UUID,
    "answered_by" TEXT,
    "answered_at" TIMESTAMPTZ(3),
    "appeal" TEXT,
    "appealed_by_id" UUID,
    "appealed_at" TIMESTAMPTZ(3),
    "decision" "appeal_decision",
    "decision_reason" TEXT,
    "decided_by_id" UUID,
    "decided_by" TEXT,
    "decided_at" TIMESTAMPTZ(3),
    "settled_by_id" UUID,
    "settled_by" TEXT,
    "settled_at" TIMESTAMPTZ(3),
    "settled_note" TEXT,

    CONSTRAINT "file_review_findings_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "retests" (
    "id" UUID NOT NULL,
    "house_id" UUID NOT NULL,
    "rater_id" UUID NOT NULL,
    "source" "quality_source" NOT NULL,
    "draw_id" UUID,
    "signal_id" UUID,
    "corrective_id" UUID,
    "reason" TEXT,
    "scope" JSONB,
    "due_on" DATE NOT NULL,
    "state" "retest_state" NOT NULL DEFAULT 'ordered',
    "visit_id" UUID,
    "done_at" TIMESTAMPTZ(3),
    "outcome" "retest_outcome",
    "note" TEXT,
    "ordered_by_id" UUID,
    "ordered_by" TEXT NOT NULL,
    "ordered_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "retests_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "retest_comparisons" (
    "id" UUID NOT NULL,
    "retest_id" UUID NOT NULL,
    "test" TEXT NOT NULL,
    "subject_id" TEXT NOT NULL,
    "subject_label" TEXT NOT NULL,
    "value" TEXT NOT NULL,
    "label" TEXT NOT NULL,
    "quantity" TEXT NOT NULL,
    "unit" TEXT NOT NULL,
    "first_reading_id" UUID NOT NULL,
    "second_reading_id" UUID NOT NULL,
    "first" DOUBLE PRECISION NOT NULL,
    "second" DOUBLE PRECISION NOT NULL,
    "first_expanded" DOUBLE PRECISION,
    "second_expanded" DOUBLE PRECISION,
    "tolerance" DOUBLE PRECISION NOT NULL,
    "tolerance_version" TEXT NOT NULL,
    "allowed" DOUBLE PRECISION NOT NULL,
    "agrees" BOOLEAN NOT NULL,
    "taken_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "retest_comparisons_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "corrective_actions" (
    "id" UUID NOT NULL,
    "subject" "corrective_subject" NOT NULL,
    "rater_id" UUID,
    "builder_id" UUID,
    "cause" TEXT NOT NULL,
    "action" TEXT NOT NULL,
    "state" "corrective_state" NOT NULL DEFAULT 'open',
    "raised_file_share" DOUBLE PRECISION,
    "raised_field_share" DOUBLE PRECISION,
    "clean_files_needed" INTEGER NOT NULL,
    "effectiveness_due_on" DATE NOT NULL,
    "effective" BOOLEAN,
    "effectiveness_note" TEXT,
    "effectiveness_by" TEXT,
    "effectiveness_at" TIMESTAMPTZ(3),
    "opened_by_id" UUID NOT NULL,
    "opened_by" TEXT NOT NULL,
    "opened_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "restored_at" TIMESTAMPTZ(3),
    "closed_at" TIMESTAMPTZ(3),
    "closed_by" TEXT,
    "close_reason" TEXT,

    CONSTRAINT "corrective_actions_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "corrective_evidence" (
    "id" UUID NOT NULL,
    "corrective_id" UUID NOT NULL,
    "text" TEXT NOT NULL,
    "file_id" UUID,
    "added_by_id" UUID NOT NULL,
    "added_by" TEXT NOT NULL,
    "added_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "corrective_evidence_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "rater_holds" (
    "id" UUID NOT NULL,
    "rater_id" UUID NOT NULL,
    "held_from" TIMESTAMPTZ(3) NOT NULL,
    "reason" TEXT NOT NULL,
    "corrective_id" UUID,
    "placed_by_id" UUID NOT NULL,
    "placed_by" TEXT NOT NULL,
    "placed_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "lifted_at" TIMESTAMPTZ(3),
    "lifted_by" TEXT,
    "lift_reason" TEXT,

    CONSTRAINT "rater_holds_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE INDEX "file_reviews_house_id_idx" ON "file_reviews"("house_id");

-- CreateIndex
CREATE INDEX "file_reviews_rater_id_done_at_idx" ON "file_reviews"("rater_id", "done_at");

-- CreateIndex
CREATE INDEX "file_reviews_state_due_on_idx" ON "file_reviews"("state", "due_on");

-- CreateIndex
CREATE INDEX "file_reviews_reviewer_id_state_idx" ON "file_reviews"("reviewer_id", "state");

-- CreateIndex
CREATE INDEX "file_reviews_draw_id_idx" ON "file_reviews"("draw_id");

-- CreateIndex
CREATE INDEX "file_review_findings_file_review_id_idx" ON "file_review_findings"("file_review_id");

-- CreateIndex
CREATE INDEX "file_review_findings_responsible_id_state_idx" ON "file_review_findings"("responsible_id", "state");

-- CreateIndex
CREATE INDEX "file_review_findings_state_due_on_idx" ON "file_review_findings"("state", "due_on");

-- CreateIndex
CREATE UNIQUE INDEX "retests_visit_id_key" ON "retests"("visit_id");

-- CreateIndex
CREATE INDEX "retests_house_id_idx" ON "retests"("house_id");

-- CreateIndex
CREATE INDEX "retests_rater_id_done_at_idx" ON "retests"("rater_id", "done_at");

-- CreateIndex
CREATE INDEX "retests_state_due_on_idx" ON "retests"("state", "due_on");

-- CreateIndex
CREATE INDEX "retests_draw_id_idx" ON "retests"("draw_id");

-- CreateIndex
CREATE INDEX "retest_comparisons_retest_id_idx" ON "retest_comparisons"("retest_id");

-- CreateIndex
CREATE INDEX "corrective_actions_state_effectiveness_due_on_idx" ON "corrective_actions"("state", "effectiveness_due_on");

-- CreateIndex
CREATE INDEX "corrective_actions_rater_id_state_idx" ON "corrective_actions"("rater_id", "state");

-- CreateIndex
CREATE INDEX "corrective_actions_builder_id_state_idx" ON "corrective_actions"("builder_id", "state");

-- CreateIndex
CREATE INDEX "corrective_evidence_corrective_id_idx" ON "corrective_evidence"("corrective_id");

-- CreateIndex
CREATE INDEX "rater_holds_rater_id_lifted_at_idx" ON "rater_holds"("rater_id", "lifted_at");

-- AddForeignKey
ALTER TABLE "file_reviews" ADD CONSTRAINT "file_reviews_house_id_fkey" FOREIGN KEY ("house_id") REFERENCES "houses"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "file_reviews" ADD CONSTRAINT "file_reviews_rater_id_fkey" FOREIGN KEY ("rater_id") REFERENCES "users"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "file_reviews" ADD CONSTRAINT "file_reviews_corrective_id_fkey" FOREIGN KEY ("corrective_id") REFERENCES "corrective_actions"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "file_reviews" ADD CONSTRAINT "file_reviews_reviewer_id_fkey" FOREIGN KEY ("reviewer_id") REFERENCES "users"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "file_review_marks" ADD CONSTRAINT "file_review_marks_file_review_id_fkey" FOREIGN KEY ("file_review_id") REFERENCES "file_reviews"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "file_review_findings" ADD CONSTRAINT "file_review_findings_file_review_id_fkey" FOREIGN KEY ("file_review_id") REFERENCES "file_reviews"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "file_review_findings" ADD CONSTRAINT "file_review_findings_responsible_id_fkey" FOREIGN KEY ("responsible_id") REFERENCES "users"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "retests" ADD CONSTRAINT "retests_house_id_fkey" FOREIGN KEY ("house_id") REFERENCES "houses"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "retests" ADD CONSTRAINT "retests_rater_id_fkey" FOREIGN KEY ("rater_id") REFERENCES "users"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "retests" ADD CONSTRAINT "retests_corrective_id_fkey" FOREIGN KEY ("corrective_id") REFERENCES "corrective_actions"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "retests" ADD CONSTRAINT "retests_visit_id_fkey" FOREIGN KEY ("visit_id") REFERENCES "visits"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "retest_comparisons" ADD CONSTRAINT "retest_comparisons_retest_id_fkey" FOREIGN KEY ("retest_id") REFERENCES "retests"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "corrective_actions" ADD CONSTRAINT "corrective_actions_rater_id_fkey" FOREIGN KEY ("rater_id") REFERENCES "users"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "corrective_actions" ADD CONSTRAINT "corrective_actions_builder_id_fkey" FOREIGN KEY ("builder_id") REFERENCES "builders"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "corrective_evidence" ADD CONSTRAINT "corrective_evidence_corrective_id_fkey" FOREIGN KEY ("corrective_id") REFERENCES "corrective_actions"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "corrective_evidence" ADD CONSTRAINT "corrective_evidence_file_id_fkey" FOREIGN KEY ("file_id") REFERENCES "stored_files"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "rater_holds" ADD CONSTRAINT "rater_holds_rater_id_fkey" FOREIGN KEY ("rater_id") REFERENCES "users"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "rater_holds" ADD CONSTRAINT "rater_holds_corrective_id_fkey" FOREIGN KEY ("corrective_id") REFERENCES "corrective_actions"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- A subject is a rater or a builder, never both; shares and counts lie where they can.
ALTER TABLE "corrective_actions"
  ADD CONSTRAINT "corrective_actions_one_subject" CHECK (
    ("subject" = 'rater' AND "rater_id" IS NOT NULL AND "builder_id" IS NULL)
    OR ("subject" = 'builder' AND "builder_id" IS NOT NULL AND "rater_id" IS NULL)),
  ADD CONSTRAINT "corrective_actions_shares" CHECK (
    coalesce("raised_file_share", 0) BETWEEN 0 AND 1 AND coalesce("raised_field_share", 0) BETWEEN 0 AND 1),
  ADD CONSTRAINT "corrective_actions_clean_files" CHECK ("clean_files_needed" BETWEEN 0 AND 1000);

-- Two persons stand behind every review: nobody reviews his own work, settles what he answered, or decides an
-- appeal against what he found himself.
ALTER TABLE "file_reviews"
  ADD CONSTRAINT "file_reviews_two_persons" CHECK ("reviewer_id" IS DISTINCT FROM "rater_id"),
  ADD CONSTRAINT "file_reviews_done" CHECK (("state" IN ('done', 'appealed')) = ("outcome" IS NOT NULL AND "done_at" IS NOT NULL AND "reviewer_id" IS NOT NULL));
ALTER TABLE "file_review_findings"
  ADD CONSTRAINT "file_review_findings_settled_by_another" CHECK ("settled_by_id" IS NULL
    OR ("settled_by_id" IS DISTINCT FROM "answered_by_id" AND "settled_by_id" IS DISTINCT FROM "responsible_id")),
  ADD CONSTRAINT "file_review_findings_decided_by_another" CHECK ("decided_by_id" IS NULL
    OR ("decided_by_id" <> "raised_by_id" AND "decided_by_id" IS DISTINCT FROM "appealed_by_id"));

CREATE FUNCTION refuse_own_file() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF NEW."reviewer_id" IS NOT NULL AND (
    EXISTS (SELECT 1 FROM "visits" v WHERE v."house_id" = NEW."house_id" AND v."rater_id" = NEW."reviewer_id" AND v."state" <> 'cancelled')
    OR EXISTS (SELECT 1 FROM "readings" r WHERE r."house_id" = NEW."house_id" AND r."taken_by_id" = NEW."reviewer_id")) THEN
    RAISE EXCEPTION 'file_reviews_two_persons: nobody reviews a file that he measured in' USING ERRCODE = 'check_violation';
  END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER "file_reviews_not_own" BEFORE INSERT OR UPDATE OF "reviewer_id", "house_id" ON "file_reviews"
  FOR EACH ROW EXECUTE FUNCTION refuse_own_file();

-- A file is under one review at a time.
CREATE UNIQUE INDEX "file_reviews_one_open" ON "file_reviews"("house_id", "revision") WHERE "state" = 'open';

-- A second measurement is another person's.
CREATE FUNCTION refuse_own_retest() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF TG_TABLE_NAME = 'retests' THEN
    IF NEW."visit_id" IS NOT NULL AND EXISTS (
      SELECT 1 FROM "visits" v WHERE v."id" = NEW."visit_id" AND v."rater_id" = NEW."rater_id") THEN
      RAISE EXCEPTION 'retests_second_rater: a re-test is measured by a second rater' USING ERRCODE = 'check_violation';
    END IF;
  ELSIF EXISTS (SELECT 1 FROM "retests" t WHERE t."visit_id" = NEW."id" AND t."rater_id" = NEW."rater_id") THEN
    RAISE EXCEPTION 'retests_second_rater: a re-test is measured by a second rater' USING ERRCODE = 'check_violation';
  END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER "retests_second_rater" BEFORE INSERT OR UPDATE OF "visit_id", "rater_id" ON "retests"
  FOR EACH ROW EXECUTE FUNCTION refuse_own_retest();
CREATE TRIGGER "visits_second_rater" BEFORE UPDATE OF "rater_id" ON "visits"
  FOR EACH ROW EXECUTE FUNCTION refuse_own_retest();

-- A rater who is held is booked for nothing that begins while he is. What was booked before stays until it is moved.
CREATE FUNCTION refuse_held_rater() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF NEW."state" IN ('booked', 'in_progress')
     AND (TG_OP = 'INSERT' OR NEW."rater_id" <> OLD."rater_id" OR NEW."starts_at" <> OLD."starts_at")
     AND EXISTS (SELECT 1 FROM "rater_holds" h WHERE h."rater_id" = NEW."rater_id"
       AND h."lifted_at" IS NULL AND h."held_from" <= NEW."starts_at") THEN
    RAISE EXCEPTION 'visits_rater_held: the rater is held' USING ERRCODE = 'check_violation';
  END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER "visits_rater_held" BEFORE INSERT OR UPDATE ON "visits"
  FOR EACH ROW EXECUTE FUNCTION refuse_held_rater();

-- What two instruments gave, and what shows that something was done, only grows.
DO $$
DECLARE t text;
BEGIN
  FOREACH t IN ARRAY ARRAY['retest_comparisons', 'corrective_evidence'] LOOP
    EXECUTE format('CREATE TRIGGER %I BEFORE UPDATE OR DELETE ON %I FOR EACH ROW EXECUTE FUNCTION refuse_change()', t || '_append_only', t);
    EXECUTE format('CREATE TRIGGER %I BEFORE TRUNCATE ON %I FOR EACH STATEMENT EXECUTE FUNCTION refuse_change()', t || '_no_truncate', t);
    EXECUTE format('GRANT SELECT, INSERT ON %I TO countercheck_app', t);
  END LOOP;
  FOREACH t IN ARRAY ARRAY['file_reviews', 'file_review_marks', 'file_review_findings', 'retests', 'corrective_actions', 'rater_holds'] LOOP
    EXECUTE format('GRANT SELECT, INSERT, UPDATE ON %I TO countercheck_app', t);
  END LOOP;
  FOREACH t IN ARRAY ARRAY['file_reviews', 'file_review_marks', 'file_review_findings', 'retests', 'retest_comparisons',
                           'corrective_actions', 'corrective_evidence', 'rater_holds'] LOOP
    EXECUTE format('ALTER TABLE %I ENABLE ROW LEVEL SECURITY', t);
    EXECUTE format('CREATE POLICY inside ON %I FOR ALL TO countercheck_app USING ((SELECT app_inside())) WITH CHECK ((SELECT app_inside()))', t);
  END LOOP;
END $$;
