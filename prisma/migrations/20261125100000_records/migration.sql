-- CreateSchema
CREATE SCHEMA IF NOT EXISTS "public";

-- CreateEnum
CREATE TYPE "role" AS ENUM ('office', 'rater', 'quality', 'builder', 'administrator');

-- CreateEnum
CREATE TYPE "unit_system" AS ENUM ('us', 'si');

-- CreateEnum
CREATE TYPE "access_token_purpose" AS ENUM ('invitation', 'password_reset');

-- CreateEnum
CREATE TYPE "foundation" AS ENUM ('slab', 'crawlspace', 'basement', 'pier');

-- CreateEnum
CREATE TYPE "ventilation_kind" AS ENUM ('none', 'exhaust', 'supply', 'balanced');

-- CreateEnum
CREATE TYPE "visit_kind" AS ENUM ('rough', 'final', 'reinspection', 'quality');

-- CreateEnum
CREATE TYPE "visit_state" AS ENUM ('booked', 'in_progress', 'submitted', 'not_ready', 'cancelled');

-- CreateEnum
CREATE TYPE "failed_item_state" AS ENUM ('open', 'corrected', 'reinspection_asked', 'closed');

-- CreateEnum
CREATE TYPE "failed_item_entry_kind" AS ENUM ('opened', 'corrected', 'reinspection_asked', 'reopened', 'closed', 'note');

-- CreateEnum
CREATE TYPE "reinspection_state" AS ENUM ('asked', 'booked', 'done', 'withdrawn');

-- CreateEnum
CREATE TYPE "review_outcome" AS ENUM ('returned', 'released');

-- CreateEnum
CREATE TYPE "finding_severity" AS ENUM ('remark', 'minor', 'major');

-- CreateEnum
CREATE TYPE "house_stage" AS ENUM ('awaiting_figures', 'ready_to_book', 'booked', 'in_testing', 'corrections', 'reinspection_asked', 'in_review', 'returned', 'released');

-- CreateEnum
CREATE TYPE "room_kind" AS ENUM ('bedroom', 'bath', 'kitchen');

-- CreateTable
CREATE TABLE "company" (
    "id" INTEGER NOT NULL DEFAULT 1,
    "name" TEXT NOT NULL,
    "timezone" TEXT NOT NULL DEFAULT 'US/Central',
    "unit_system" "unit_system" NOT NULL DEFAULT 'us',
    "blind_second_reading" BOOLEAN NOT NULL DEFAULT false,
    "require_second_factor" BOOLEAN NOT NULL DEFAULT false,
    "installer_link_days" INTEGER NOT NULL DEFAULT 30,
    "default_rule_set_id" UUID,
    "updated_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "company_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "users" (
    "id" UUID NOT NULL,
    "email" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "role" "role" NOT NULL,
    "builder_id" UUID,
    "active" BOOLEAN NOT NULL DEFAULT true,
    "password_hash" TEXT,
    "totp_secret" TEXT,
    "totp_confirmed_at" TIMESTAMPTZ(3),
    "totp_last_step" INTEGER,
    "unit_system" "unit_system",
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "last_sign_in_at" TIMESTAMPTZ(3),

    CONSTRAINT "users_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "sessions" (
    "id" TEXT NOT NULL,
    "user_id" UUID NOT NULL,
    "expires_at" TIMESTAMPTZ(3) NOT NULL,
    "absolute_expires_at" TIMESTAMPTZ(3) NOT NULL,
    "second_factor_passed" BOOLEAN NOT NULL DEFAULT false,
    "user_agent" TEXT,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "sessions_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "access_tokens" (
    "id" UUID NOT NULL,
    "purpose" "access_token_purpose" NOT NULL,
    "user_id" UUID NOT NULL,
    "token_hash" TEXT NOT NULL,
    "expires_at" TIMESTAMPTZ(3) NOT NULL,
    "used_at" TIMESTAMPTZ(3),
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "access_tokens_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "sign_in_attempts" (
    "id" BIGSERIAL NOT NULL,
    "key" TEXT NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "sign_in_attempts_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "outgoing_mail" (
    "id" UUID NOT NULL,
    "recipient" TEXT NOT NULL,
    "subject" TEXT NOT NULL,
    "body" TEXT NOT NULL,
    "about" TEXT,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "sent_at" TIMESTAMPTZ(3),
    "attempts" INTEGER NOT NULL DEFAULT 0,
    "next_try_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "last_error" TEXT,

    CONSTRAINT "outgoing_mail_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "builders" (
    "id" UUID NOT NULL,
    "name" TEXT NOT NULL,
    "phone" TEXT,
    "address" TEXT,
    "note" TEXT,
    "active" BOOLEAN NOT NULL DEFAULT true,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "updated_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "builders_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "builder_contacts" (
    "id" UUID NOT NULL,
    "builder_id" UUID NOT NULL,
    "name" TEXT NOT NULL,
    "duty" TEXT,
    "email" TEXT,
    "phone" TEXT,
    "notify" BOOLEAN NOT NULL DEFAULT true,

    CONSTRAINT "builder_contacts_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "communities" (
    "id" UUID NOT NULL,
    "builder_id" UUID NOT NULL,
    "name" TEXT NOT NULL,
    "jurisdiction" TEXT,
    "climate_zone" TEXT NOT NULL,
    "latitude" DOUBLE PRECISION,
    "longitude" DOUBLE PRECISION,

    CONSTRAINT "communities_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "plans" (
    "id" UUID NOT NULL,
    "builder_id" UUID NOT NULL,
    "name" TEXT NOT NULL,
    "conditioned_floor_area" DOUBLE PRECISION NOT NULL,
    "conditioned_volume" DOUBLE PRECISION NOT NULL,
    "bedrooms" INTEGER NOT NULL,
    "storeys" DOUBLE PRECISION NOT NULL,
    "foundation" "foundation" NOT NULL,
    "ventilation_kind" "ventilation_kind" NOT NULL,
    "ventilator_ducted" BOOLEAN NOT NULL DEFAULT false,
    "designed_ventilation" DOUBLE PRECISION,
    "parts" JSONB NOT NULL,
    "active" BOOLEAN NOT NULL DEFAULT true,

    CONSTRAINT "plans_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "installers" (
    "id" UUID NOT NULL,
    "name" TEXT NOT NULL,
    "company_name" TEXT NOT NULL,
    "trade" TEXT NOT NULL DEFAULT 'hvac-installer',
    "email" TEXT,
    "phone" TEXT,
    "active" BOOLEAN NOT NULL DEFAULT true,

    CONSTRAINT "installers_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "installer_links" (
    "id" UUID NOT NULL,
    "house_id" UUID NOT NULL,
    "installer_id" UUID NOT NULL,
    "token_hash" TEXT NOT NULL,
    "expires_at" TIMESTAMPTZ(3) NOT NULL,
    "revoked_at" TIMESTAMPTZ(3),
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "last_used_at" TIMESTAMPTZ(3),

    CONSTRAINT "installer_links_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "installer_submissions" (
    "id" UUID NOT NULL,
    "house_id" UUID NOT NULL,
    "installer_id" UUID NOT NULL,
    "link_id" UUID,
    "revision" INTEGER NOT NULL,
    "figures" JSONB NOT NULL,
    "signed_name" TEXT NOT NULL,
    "signed_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "frozen_at" TIMESTAMPTZ(3),

    CONSTRAINT "installer_submissions_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "instruments" (
    "id" UUID NOT NULL,
    "kind" TEXT NOT NULL,
    "label" TEXT NOT NULL,
    "serial" TEXT NOT NULL,
    "accuracy_percent" DOUBLE PRECISION NOT NULL,
    "accuracy_absolute" DOUBLE PRECISION NOT NULL,
    "resolution" DOUBLE PRECISION,
    "active" BOOLEAN NOT NULL DEFAULT true,
    "note" TEXT,

    CONSTRAINT "instruments_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "instrument_calibrations" (
    "id" UUID NOT NULL,
    "instrument_id" UUID NOT NULL,
    "calibrated_on" DATE NOT NULL,
    "due_on" DATE NOT NULL,
    "certificate" TEXT,
    "ranges" JSONB NOT NULL DEFAULT '[]',

    CONSTRAINT "instrument_calibrations_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "visits" (
    "id" UUID NOT NULL,
    "house_id" UUID NOT NULL,
    "rater_id" UUID NOT NULL,
    "kind" "visit_kind" NOT NULL,
    "state" "visit_state" NOT NULL DEFAULT 'booked',
    "starts_at" TIMESTAMPTZ(3) NOT NULL,
    "ends_at" TIMESTAMPTZ(3) NOT NULL,
    "scope" JSONB,
    "note" TEXT,
    "cause" TEXT,
    "started_at" TIMESTAMPTZ(3),
    "submitted_at" TIMESTAMPTZ(3),
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "updated_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "visits_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "readings" (
    "id" UUID NOT NULL,
    "house_id" UUID NOT NULL,
    "visit_id" UUID NOT NULL,
    "test" TEXT NOT NULL,
    "subject_id" TEXT NOT NULL,
    "raw" JSONB NOT NULL,
    "entered" JSONB NOT NULL,
    "conditions" JSONB NOT NULL DEFAULT '{}',
    "instrument_id" UUID,
    "calibration_id" UUID,
    "taken_by_id" UUID NOT NULL,
    "taken_at" TIMESTAMPTZ(3) NOT NULL,
    "received_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "supersedes_id" UUID,
    "supersede_reason" TEXT,

    CONSTRAINT "readings_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "item_results" (
    "id" UUID NOT NULL,
    "house_id" UUID NOT NULL,
    "item" TEXT NOT NULL,
    "subject_id" TEXT NOT NULL,
    "status" TEXT NOT NULL,
    "reason" TEXT NOT NULL,
    "verdict" JSONB NOT NULL,
    "computed_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "item_results_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "failed_items" (
    "id" UUID NOT NULL,
    "house_id" UUID NOT NULL,
    "item" TEXT NOT NULL,
    "title" TEXT NOT NULL,
    "subject_id" TEXT NOT NULL,
    "subject_label" TEXT NOT NULL,
    "trade" TEXT NOT NULL,
    "state" "failed_item_state" NOT NULL DEFAULT 'open',
    "reason" TEXT NOT NULL,
    "needed" TEXT,
    "correction" TEXT NOT NULL,
    "cautions" JSONB NOT NULL DEFAULT '[]',
    "times_failed" INTEGER NOT NULL DEFAULT 1,
    "opened_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "opened_by_id" UUID NOT NULL,
    "closed_at" TIMESTAMPTZ(3),
    "updated_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "failed_items_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "failed_item_entries" (
    "id" UUID NOT NULL,
    "failed_item_id" UUID NOT NULL,
    "kind" "failed_item_entry_kind" NOT NULL,
    "text" TEXT NOT NULL,
    "by_name" TEXT NOT NULL,
    "by_user_id" UUID,
    "visit_id" UUID,
    "at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "failed_item_entries_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "reinspection_requests" (
    "id" UUID NOT NULL,
    "house_id" UUID NOT NULL,
    "state" "reinspection_state" NOT NULL DEFAULT 'asked',
    "note" TEXT,
    "earliest_on" DATE,
    "asked_by_id" UUID NOT NULL,
    "asked_by_name" TEXT NOT NULL,
    "asked_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "visit_id" UUID,

    CONSTRAINT "reinspection_requests_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "stored_files" (
    "id" UUID NOT NULL,
    "sha256" TEXT NOT NULL,
    "media_type" TEXT NOT NULL,
    "size" INTEGER NOT NULL,
    "width" INTEGER,
    "height" INTEGER,
    "bytes" BYTEA NOT NULL,
    "thumbnail" BYTEA,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "stored_files_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "attachments" (
    "id" UUID NOT NULL,
    "house_id" UUID NOT NULL,
    "file_id" UUID NOT NULL,
    "visit_id" UUID,
    "item" TEXT,
    "subject_id" TEXT,
    "failed_item_id" UUID,
    "caption" TEXT,
    "taken_at" TIMESTAMPTZ(3),
    "added_by_id" UUID NOT NULL,
    "added_by_name" TEXT NOT NULL,
    "added_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "attachments_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "reviews" (
    "id" UUID NOT NULL,
    "house_id" UUID NOT NULL,
    "revision" INTEGER NOT NULL,
    "reviewer_id" UUID NOT NULL,
    "reviewer" TEXT NOT NULL,
    "outcome" "review_outcome" NOT NULL,
    "note" TEXT,
    "at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "reviews_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "review_findings" (
    "id" UUID NOT NULL,
    "review_id" UUID NOT NULL,
    "item" TEXT,
    "subject_id" TEXT,
    "severity" "finding_severity" NOT NULL,
    "text" TEXT NOT NULL,
    "answered_at" TIMESTAMPTZ(3),
    "answer" TEXT,

    CONSTRAINT "review_findings_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "releases" (
    "id" UUID NOT NULL,
    "house_id" UUID NOT NULL,
    "revision" INTEGER NOT NULL,
    "released_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "released_by" TEXT NOT NULL,
    "released_by_id" UUID NOT NULL,
    "content" JSONB NOT NULL,
    "hash" TEXT NOT NULL,

    CONSTRAINT "releases_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "events" (
    "id" BIGSERIAL NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "actor_kind" TEXT NOT NULL,
    "actor_id" UUID,
    "actor_name" TEXT NOT NULL,
    "action" TEXT NOT NULL,
    "record_type" TEXT NOT NULL,
    "record_id" TEXT NOT NULL,
    "house_id" UUID,
    "before" JSONB,
    "after" JSONB,
    "reason" TEXT,
    "request_id" TEXT,

    CONSTRAINT "events_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "houses" (
    "id" UUID NOT NULL,
    "builder_id" UUID NOT NULL,
    "community_id" UUID NOT NULL,
    "plan_id" UUID,
    "address" TEXT NOT NULL,
    "lot" TEXT NOT NULL,
    "climate_zone" TEXT NOT NULL,
    "conditioned_floor_area" DOUBLE PRECISION NOT NULL,
    "conditioned_volume" DOUBLE PRECISION NOT NULL,
    "bedrooms" INTEGER NOT NULL,
    "storeys" DOUBLE PRECISION NOT NULL,
    "foundation" "foundation" NOT NULL,
    "ventilation_kind" "ventilation_kind" NOT NULL,
    "ventilator_ducted" BOOLEAN NOT NULL DEFAULT false,
    "designed_ventilation" DOUBLE PRECISION,
    "latitude" DOUBLE PRECISION,
    "longitude" DOUBLE PRECISION,
    "stage" "house_stage" NOT NULL DEFAULT 'awaiting_figures',
    "rule_set_id" UUID NOT NULL,
    "revision" INTEGER NOT NULL DEFAULT 1,
    "note" TEXT,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "updated_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "houses_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "house_systems" (
    "id" UUID NOT NULL,
    "house_id" UUID NOT NULL,
    "label" TEXT NOT NULL,
    "kind" TEXT NOT NULL,
    "has_ducts" BOOLEAN NOT NULL DEFAULT true,
    "ducts_inside" BOOLEAN NOT NULL DEFAULT false,
    "design_airflow" DOUBLE PRECISION,
    "position" INTEGER NOT NULL DEFAULT 0,

    CONSTRAINT "house_systems_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "rooms" (
    "id" UUID NOT NULL,
    "house_id" UUID NOT NULL,
    "label" TEXT NOT NULL,
    "kind" "room_kind" NOT NULL,
    "supply_flow" DOUBLE PRECISION,
    "volume" DOUBLE PRECISION,
    "position" INTEGER NOT NULL DEFAULT 0,

    CONSTRAINT "rooms_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "appliances" (
    "id" UUID NOT NULL,
    "house_id" UUID NOT NULL,
    "label" TEXT NOT NULL,
    "kind" TEXT NOT NULL,
    "fuel" TEXT NOT NULL,
    "venting" TEXT NOT NULL,
    "location" TEXT,
    "position" INTEGER NOT NULL DEFAULT 0,

    CONSTRAINT "appliances_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "rule_sets" (
    "id" UUID NOT NULL,
    "key" TEXT NOT NULL,
    "version" TEXT NOT NULL,
    "title" TEXT NOT NULL,
    "effective_on" DATE NOT NULL,
    "body" JSONB NOT NULL,
    "hash" TEXT NOT NULL,
    "published_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "offered" BOOLEAN NOT NULL DEFAULT true,

    CONSTRAINT "rule_sets_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE UNIQUE INDEX "users_email_key" ON "users"("email");

-- CreateIndex
CREATE INDEX "users_builder_id_idx" ON "users"("builder_id");

-- CreateIndex
CREATE INDEX "sessions_user_id_idx" ON "sessions"("user_id");

-- CreateIndex
CREATE UNIQUE INDEX "access_tokens_token_hash_key" ON "access_tokens"("token_hash");

-- CreateIndex
CREATE INDEX "access_tokens_user_id_idx" ON "access_tokens"("user_id");

-- CreateIndex
CREATE INDEX "sign_in_attempts_key_at_idx" ON "sign_in_attempts"("key", "at");

-- CreateIndex
CREATE INDEX "outgoing_mail_sent_at_next_try_at_idx" ON "outgoing_mail"("sent_at", "next_try_at");

-- CreateIndex
CREATE INDEX "outgoing_mail_created_at_idx" ON "outgoing_mail"("created_at");

-- CreateIndex
CREATE UNIQUE INDEX "builders_name_key" ON "builders"("name");

-- CreateIndex
CREATE INDEX "builder_contacts_builder_id_idx" ON "builder_contacts"("builder_id");

-- CreateIndex
CREATE UNIQUE INDEX "communities_builder_id_name_key" ON "communities"("builder_id", "name");

-- CreateIndex
CREATE UNIQUE INDEX "plans_builder_id_name_key" ON "plans"("builder_id", "name");

-- CreateIndex
CREATE INDEX "installers_company_name_idx" ON "installers"("company_name");

-- CreateIndex
CREATE UNIQUE INDEX "installer_links_token_hash_key" ON "installer_links"("token_hash");

-- CreateIndex
CREATE INDEX "installer_links_house_id_idx" ON "installer_links"("house_id");

-- CreateIndex
CREATE UNIQUE INDEX "installer_submissions_house_id_revision_key" ON "installer_submissions"("house_id", "revision");

-- CreateIndex
CREATE UNIQUE INDEX "instruments_serial_key" ON "instruments"("serial");

-- CreateIndex
CREATE UNIQUE INDEX "instrument_calibrations_instrument_id_calibrated_on_key" ON "instrument_calibrations"("instrument_id", "calibrated_on");

-- CreateIndex
CREATE INDEX "visits_house_id_idx" ON "visits"("house_id");

-- CreateIndex
CREATE INDEX "visits_rater_id_starts_at_idx" ON "visits"("rater_id", "starts_at");

-- CreateIndex
CREATE INDEX "visits_starts_at_idx" ON "visits"("starts_at");

-- CreateIndex
CREATE UNIQUE INDEX "readings_supersedes_id_key" ON "readings"("supersedes_id");

-- CreateIndex
CREATE INDEX "readings_house_id_test_idx" ON "readings"("house_id", "test");

-- CreateIndex
CREATE INDEX "readings_visit_id_idx" ON "readings"("visit_id");

-- CreateIndex
CREATE INDEX "readings_instrument_id_taken_at_idx" ON "readings"("instrument_id", "taken_at");

-- CreateIndex
CREATE INDEX "readings_taken_by_id_taken_at_idx" ON "readings"("taken_by_id", "taken_at");

-- CreateIndex
CREATE INDEX "item_results_status_idx" ON "item_results"("status");

-- CreateIndex
CREATE UNIQUE INDEX "item_results_house_id_item_subject_id_key" ON "item_results"("house_id", "item", "subject_id");

-- CreateIndex
CREATE INDEX "failed_items_state_opened_at_idx" ON "failed_items"("state", "opened_at");

-- CreateIndex
CREATE INDEX "failed_items_house_id_idx" ON "failed_items"("house_id");

-- CreateIndex
CREATE UNIQUE INDEX "failed_items_house_id_item_subject_id_key" ON "failed_items"("house_id", "item", "subject_id");

-- CreateIndex
CREATE INDEX "failed_item_entries_failed_item_id_idx" ON "failed_item_entries"("failed_item_id");

-- CreateIndex
CREATE INDEX "reinspection_requests_house_id_idx" ON "reinspection_requests"("house_id");

-- CreateIndex
CREATE INDEX "reinspection_requests_state_asked_at_idx" ON "reinspection_requests"("state", "asked_at");

-- CreateIndex
CREATE INDEX "stored_files_sha256_idx" ON "stored_files"("sha256");

-- CreateIndex
CREATE INDEX "attachments_house_id_idx" ON "attachments"("house_id");

-- CreateIndex
CREATE INDEX "attachments_visit_id_idx" ON "attachments"("visit_id");

-- CreateIndex
CREATE INDEX "attachments_failed_item_id_idx" ON "attachments"("failed_item_id");

-- CreateIndex
CREATE INDEX "attachments_file_id_idx" ON "attachments"("file_id");

-- CreateIndex
CREATE INDEX "reviews_house_id_idx" ON "reviews"("house_id");

-- CreateIndex
CREATE INDEX "review_findings_review_id_idx" ON "review_findings"("review_id");

-- CreateIndex
CREATE UNIQUE INDEX "releases_house_id_revision_key" ON "releases"("house_id", "revision");

-- CreateIndex
CREATE INDEX "events_house_id_id_idx" ON "events"("house_id", "id");

-- CreateIndex
CREATE INDEX "events_record_type_record_id_idx" ON "events"("record_type", "record_id");

-- CreateIndex
CREATE INDEX "events_at_idx" ON "events"("at");

-- CreateIndex
CREATE INDEX "events_actor_id_id_idx" ON "events"("actor_id", "id");

-- CreateIndex
CREATE INDEX "houses_builder_id_stage_idx" ON "houses"("builder_id", "stage");

-- CreateIndex
CREATE INDEX "houses_stage_updated_at_idx" ON "houses"("stage", "updated_at");

-- CreateIndex
CREATE INDEX "houses_community_id_idx" ON "houses"("community_id");

-- CreateIndex
CREATE INDEX "houses_updated_at_idx" ON "houses"("updated_at");

-- CreateIndex
CREATE UNIQUE INDEX "houses_community_id_lot_key" ON "houses"("community_id", "lot");

-- CreateIndex
CREATE INDEX "house_systems_house_id_idx" ON "house_systems"("house_id");

-- CreateIndex
CREATE INDEX "rooms_house_id_idx" ON "rooms"("house_id");

-- CreateIndex
CREATE INDEX "appliances_house_id_idx" ON "appliances"("house_id");

-- CreateIndex
CREATE UNIQUE INDEX "rule_sets_key_version_key" ON "rule_sets"("key", "version");

-- AddForeignKey
ALTER TABLE "company" ADD CONSTRAINT "company_default_rule_set_id_fkey" FOREIGN KEY ("default_rule_set_id") REFERENCES "rule_sets"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "users" ADD CONSTRAINT "users_builder_id_fkey" FOREIGN KEY ("builder_id") REFERENCES "builders"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "sessions" ADD CONSTRAINT "sessions_user_id_fkey" FOREIGN KEY ("user_id") REFERENCES "users"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "access_tokens" ADD CONSTRAINT "access_tokens_user_id_fkey" FOREIGN KEY ("user_id") REFERENCES "users"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "builder_contacts" ADD CONSTRAINT "builder_contacts_builder_id_fkey" FOREIGN KEY ("builder_id") REFERENCES "builders"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "communities" ADD CONSTRAINT "communities_builder_id_fkey" FOREIGN KEY ("builder_id") REFERENCES "builders"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "plans" ADD CONSTRAINT "plans_builder_id_fkey" FOREIGN KEY ("builder_id") REFERENCES "builders"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "installer_links" ADD CONSTRAINT "installer_links_house_id_fkey" FOREIGN KEY ("house_id") REFERENCES "houses"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "installer_links" ADD CONSTRAINT "installer_links_installer_id_fkey" FOREIGN KEY ("installer_id") REFERENCES "installers"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "installer_submissions" ADD CONSTRAINT "installer_submissions_house_id_fkey" FOREIGN KEY ("house_id") REFERENCES "houses"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "installer_submissions" ADD CONSTRAINT "installer_submissions_installer_id_fkey" FOREIGN KEY ("installer_id") REFERENCES "installers"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "installer_submissions" ADD CONSTRAINT "installer_submissions_link_id_fkey" FOREIGN KEY ("link_id") REFERENCES "installer_links"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "instrument_calibrations" ADD CONSTRAINT "instrument_calibrations_instrument_id_fkey" FOREIGN KEY ("instrument_id") REFERENCES "instruments"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "visits" ADD CONSTRAINT "visits_house_id_fkey" FOREIGN KEY ("house_id") REFERENCES "houses"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "visits" ADD CONSTRAINT "visits_rater_id_fkey" FOREIGN KEY ("rater_id") REFERENCES "users"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "readings" ADD CONSTRAINT "readings_house_id_fkey" FOREIGN KEY ("house_id") REFERENCES "houses"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "readings" ADD CONSTRAINT "readings_visit_id_fkey" FOREIGN KEY ("visit_id") REFERENCES "visits"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "readings" ADD CONSTRAINT "readings_instrument_id_fkey" FOREIGN KEY ("instrument_id") REFERENCES "instruments"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "readings" ADD CONSTRAINT "readings_calibration_id_fkey" FOREIGN KEY ("calibration_id") REFERENCES "instrument_calibrations"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "readings" ADD CONSTRAINT "readings_taken_by_id_fkey" FOREIGN KEY ("taken_by_id") REFERENCES "users"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "readings" ADD CONSTRAINT "readings_supersedes_id_fkey" FOREIGN KEY ("supersedes_id") REFERENCES "readings"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "item_results" ADD CONSTRAINT "item_results_house_id_fkey" FOREIGN KEY ("house_id") REFERENCES "houses"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "failed_items" ADD CONSTRAINT "failed_items_house_id_fkey" FOREIGN KEY ("house_id") REFERENCES "houses"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "failed_item_entries" ADD CONSTRAINT "failed_item_entries_failed_item_id_fkey" FOREIGN KEY ("failed_item_id") REFERENCES "failed_items"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "reinspection_requests" ADD CONSTRAINT "reinspection_requests_house_id_fkey" FOREIGN KEY ("house_id") REFERENCES "houses"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "attachments" ADD CONSTRAINT "attachments_house_id_fkey" FOREIGN KEY ("house_id") REFERENCES "houses"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "attachments" ADD CONSTRAINT "attachments_file_id_fkey" FOREIGN KEY ("file_id") REFERENCES "stored_files"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "attachments" ADD CONSTRAINT "attachments_visit_id_fkey" FOREIGN KEY ("visit_id") REFERENCES "visits"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "attachments" ADD CONSTRAINT "attachments_failed_item_id_fkey" FOREIGN KEY ("failed_item_id") REFERENCES "failed_items"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "reviews" ADD CONSTRAINT "reviews_house_id_fkey" FOREIGN KEY ("house_id") REFERENCES "houses"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "review_findings" ADD CONSTRAINT "review_findings_review_id_fkey" FOREIGN KEY ("review_id") REFERENCES "reviews"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "releases" ADD CONSTRAINT "releases_house_id_fkey" FOREIGN KEY ("house_id") REFERENCES "houses"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "houses" ADD CONSTRAINT "houses_builder_id_fkey" FOREIGN KEY ("builder_id") REFERENCES "builders"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "houses" ADD CONSTRAINT "houses_community_id_fkey" FOREIGN KEY ("community_id") REFERENCES "communities"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "houses" ADD CONSTRAINT "houses_plan_id_fkey" FOREIGN KEY ("plan_id") REFERENCES "plans"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "houses" ADD CONSTRAINT "houses_rule_set_id_fkey" FOREIGN KEY ("rule_set_id") REFERENCES "rule_sets"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "house_systems" ADD CONSTRAINT "house_systems_house_id_fkey" FOREIGN KEY ("house_id") REFERENCES "houses"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "rooms" ADD CONSTRAINT "rooms_house_id_fkey" FOREIGN KEY ("house_id") REFERENCES "houses"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "appliances" ADD CONSTRAINT "appliances_house_id_fkey" FOREIGN KEY ("house_id") REFERENCES "houses"("id") ON DELETE CASCADE ON UPDATE CASCADE;

