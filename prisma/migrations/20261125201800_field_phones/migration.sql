-- CreateTable
CREATE TABLE "idempotency_keys" (
    "actor_id" UUID NOT NULL,
    "key" TEXT NOT NULL,
    "route" TEXT NOT NULL,
    "body_hash" TEXT NOT NULL,
    "status" INTEGER NOT NULL,
    "answer" JSONB,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "idempotency_keys_pkey" PRIMARY KEY ("actor_id","key")
);

-- CreateTable
CREATE TABLE "photo_uploads" (
    "id" UUID NOT NULL,
    "visit_id" UUID NOT NULL,
    "added_by_id" UUID NOT NULL,
    "item" TEXT,
    "subject_id" TEXT,
    "caption" TEXT,
    "taken_at" TIMESTAMPTZ(3),
    "size" INTEGER NOT NULL,
    "sha256" TEXT NOT NULL,
    "received" INTEGER NOT NULL DEFAULT 0,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "kept_at" TIMESTAMPTZ(3),

    CONSTRAINT "photo_uploads_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "photo_upload_pieces" (
    "upload_id" UUID NOT NULL,
    "offset" INTEGER NOT NULL,
    "bytes" BYTEA NOT NULL,

    CONSTRAINT "photo_upload_pieces_pkey" PRIMARY KEY ("upload_id","offset")
);

-- CreateIndex
CREATE INDEX "idempotency_keys_created_at_idx" ON "idempotency_keys"("created_at");

-- CreateIndex
CREATE INDEX "photo_uploads_created_at_idx" ON "photo_uploads"("created_at");

-- CreateIndex
CREATE INDEX "photo_uploads_visit_id_idx" ON "photo_uploads"("visit_id");

-- AddForeignKey
ALTER TABLE "photo_uploads" ADD CONSTRAINT "photo_uploads_visit_id_fkey" FOREIGN KEY ("visit_id") REFERENCES "visits"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "photo_upload_pieces" ADD CONSTRAINT "photo_upload_pieces_upload_id_fkey" FOREIGN KEY ("upload_id") REFERENCES "photo_uploads"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- Whoever asked sees his own keys only; the service throws old ones away.
ALTER TABLE "idempotency_keys" ENABLE ROW LEVEL SECURITY;
GRANT SELECT, INSERT, DELETE ON "idempotency_keys" TO countercheck_app;
CREATE POLICY own_keys ON "idempotency_keys" FOR ALL TO countercheck_app
  USING ((SELECT app_scope()) = 'system' OR "actor_id" = (SELECT app_user()))
  WITH CHECK ("actor_id" = (SELECT app_user()));

-- What is on its way is the company's; it is thrown away when the photo is kept, or was given up.
DO $$
DECLARE t text;
BEGIN
  FOREACH t IN ARRAY ARRAY['photo_uploads', 'photo_upload_pieces'] LOOP
    EXECUTE format('GRANT SELECT, INSERT, UPDATE, DELETE ON %I TO countercheck_app', t);
    EXECUTE format('ALTER TABLE %I ENABLE ROW LEVEL SECURITY', t);
    EXECUTE format('CREATE POLICY inside ON %I FOR ALL TO countercheck_app USING ((SELECT app_inside())) WITH CHECK ((SELECT app_inside()))', t);
  END LOOP;
END $$;
