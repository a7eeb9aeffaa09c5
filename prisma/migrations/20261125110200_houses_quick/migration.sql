-- The list of houses in the order of addresses, without sorting all of them.
CREATE INDEX "houses_address_id_idx" ON "houses"("address", "id");
CREATE INDEX "houses_lot_trgm" ON "houses" USING gin ("lot" gin_trgm_ops);

-- Under row-level security PostgreSQL may not use an index for ILIKE, since that operator could show what
-- the policies hide. This looks in the index as the owner and gives back ids only; whoever asks still sees
-- no more houses than the policies allow.
CREATE FUNCTION houses_like(anywhere text, or_else text) RETURNS SETOF uuid
  LANGUAGE sql STABLE SECURITY DEFINER SET search_path = public, pg_temp ROWS 100
  AS $$ SELECT "id" FROM "houses" WHERE "address" ILIKE anywhere OR "lot" ILIKE anywhere OR "address" ILIKE or_else $$;
REVOKE ALL ON FUNCTION houses_like(text, text) FROM PUBLIC;
GRANT EXECUTE ON FUNCTION houses_like(text, text) TO countercheck_app;
