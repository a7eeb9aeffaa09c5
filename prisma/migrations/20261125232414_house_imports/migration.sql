-- AlterEnum
ALTER TYPE "run_kind" ADD VALUE 'import';

-- AlterTable
ALTER TABLE "houses" ADD COLUMN "import_id" UUID;

-- CreateTable
CREATE TABLE "house_imports" (
    "id" UUID NOT NULL,
    "builder_id" UUID NOT NULL,
    "count" INTEGER NOT NULL,

    CONSTRAINT "house_imports_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE INDEX "house_imports_builder_id_idx" ON "house_imports"("builder_id");

-- CreateIndex
CREATE INDEX "houses_import_id_idx" ON "houses"("import_id");

-- AddForeignKey
ALTER TABLE "houses" ADD CONSTRAINT "houses_import_id_fkey" FOREIGN KEY ("import_id") REFERENCES "house_imports"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "house_imports" ADD CONSTRAINT "house_imports_id_fkey" FOREIGN KEY ("id") REFERENCES "background_runs"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "house_imports" ADD CONSTRAINT "house_imports_builder_id_fkey" FOREIGN KEY ("builder_id") REFERENCES "builders"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

GRANT SELECT, INSERT ON "house_imports" TO countercheck_app;
ALTER TABLE "house_imports" ENABLE ROW LEVEL SECURITY;
CREATE POLICY inside ON "house_imports" FOR ALL TO countercheck_app
  USING ((SELECT app_inside())) WITH CHECK ((SELECT app_inside()));
