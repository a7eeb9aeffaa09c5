-- DropIndex
DROP INDEX "item_results_status_idx";

-- DropIndex
DROP INDEX "readings_visit_id_idx";

-- CreateIndex
CREATE INDEX "item_results_house_id_status_item_idx" ON "item_results"("house_id", "status", "item");

-- CreateIndex
CREATE INDEX "readings_visit_id_id_idx" ON "readings"("visit_id", "id");

-- CreateIndex
CREATE INDEX "releases_released_at_idx" ON "releases"("released_at");

-- They only read what the transaction was told of who is asking, so that several processes may share a long query.
ALTER FUNCTION app_scope() PARALLEL SAFE;
ALTER FUNCTION app_builder() PARALLEL SAFE;
ALTER FUNCTION app_house() PARALLEL SAFE;
ALTER FUNCTION app_user() PARALLEL SAFE;
ALTER FUNCTION app_inside() PARALLEL SAFE;
