-- AlterTable
ALTER TABLE "company" ADD COLUMN     "log_head_email" TEXT;

-- CreateTable
CREATE TABLE "event_chain" (
    "sequence" BIGINT NOT NULL,
    "event_id" BIGINT NOT NULL,
    "version" SMALLINT NOT NULL DEFAULT 1,
    "previous" BYTEA NOT NULL,
    "hash" BYTEA NOT NULL,

    CONSTRAINT "event_chain_pkey" PRIMARY KEY ("sequence")
);

-- CreateTable
CREATE TABLE "log_heads" (
    "day" DATE NOT NULL,
    "sequence" BIGINT NOT NULL,
    "hash" TEXT NOT NULL,
    "read_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "recipient" TEXT,

    CONSTRAINT "log_heads_pkey" PRIMARY KEY ("day")
);

-- CreateIndex
CREATE UNIQUE INDEX "event_chain_event_id_key" ON "event_chain"("event_id");

-- CreateIndex
CREATE INDEX "log_heads_sequence_idx" ON "log_heads"("sequence");

-- AlterTable
ALTER TABLE "events" ADD COLUMN     "content" TEXT;

-- The canonical JSON (RFC 8785) of what was logged before there was a chain. Only for this migration: from here on
-- the service writes it. Numbers as ECMAScript writes them, from PostgreSQL's own shortest digits.
SET LOCAL extra_float_digits = 1;
CREATE FUNCTION pg_temp.canonical_number(given numeric) RETURNS text LANGUAGE plpgsql AS $$
DECLARE
  part text[];
  digits text;
  point integer;
BEGIN
  IF given::float8 = 0 THEN RETURN '0'; END IF;
  part := regexp_match(given::float8::text, '^(-?)(\d+)(?:\.(\d+))?(?:e([+-]\d+))?$');
  digits := part[2] || coalesce(part[3], '');
  point := length(part[2]) + coalesce(part[4]::integer, 0);
  point := point - (length(digits) - length(ltrim(digits, '0')));
  digits := rtrim(ltrim(digits, '0'), '0');
  RETURN part[1] || CASE
    WHEN point BETWEEN length(digits) AND 21 THEN digits || repeat('0', point - length(digits))
    WHEN point BETWEEN 1 AND 21 THEN left(digits, point) || '.' || substr(digits, point + 1)
    WHEN point BETWEEN -5 AND 0 THEN '0.' || repeat('0', -point) || digits
    ELSE left(digits, 1) || CASE WHEN length(digits) > 1 THEN '.' || substr(digits, 2) ELSE '' END
      || 'e' || CASE WHEN point > 0 THEN '+' ELSE '-' END || abs(point - 1)
  END;
END $$;
CREATE FUNCTION pg_temp.canonical(given jsonb) RETURNS text LANGUAGE plpgsql AS $$
BEGIN
  RETURN CASE jsonb_typeof(given)
    WHEN 'object' THEN (SELECT '{' || coalesce(string_agg(to_json(key)::text || ':' || pg_temp.canonical(value), ',' ORDER BY key COLLATE "C"), '') || '}' FROM jsonb_each(given))
    WHEN 'array' THEN (SELECT '[' || coalesce(string_agg(pg_temp.canonical(value), ',' ORDER BY place), '') || ']' FROM jsonb_array_elements(given) WITH ORDINALITY AS e(value, place))
    WHEN 'string' THEN to_json(given #>> '{}')::text
    WHEN 'number' THEN pg_temp.canonical_number(given::numeric)
    ELSE given::text
  END;
END $$;

-- What the columns of an event say, as JSON: held against its content whenever one is written.
CREATE FUNCTION event_says("events") RETURNS jsonb LANGUAGE sql STABLE
  SET search_path = pg_catalog, pg_temp AS $$
  SELECT jsonb_build_object(
    'at', to_char($1."at" AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"'),
    'actorKind', $1."actor_kind", 'actorId', $1."actor_id", 'actorName', $1."actor_name", 'action', $1."action",
    'recordType', $1."record_type", 'recordId', $1."record_id", 'houseId', $1."house_id",
    'before', $1."before", 'after', $1."after", 'reason', $1."reason", 'requestId', $1."request_id")
$$;

ALTER TABLE "events" DISABLE TRIGGER "events_append_only";
UPDATE "events" e SET "content" = pg_temp.canonical(event_says(e));
ALTER TABLE "events" ENABLE TRIGGER "events_append_only";
ALTER TABLE "events" ALTER COLUMN "content" SET NOT NULL;
DROP FUNCTION pg_temp.canonical(jsonb);
DROP FUNCTION pg_temp.canonical_number(numeric);

CREATE FUNCTION refuse_untrue_content() RETURNS trigger LANGUAGE plpgsql
  SET search_path = pg_catalog, public, pg_temp AS $$
BEGIN
  IF NEW."content"::jsonb IS DISTINCT FROM public.event_says(NEW) THEN
    RAISE EXCEPTION 'the content of an event is not what its columns say' USING ERRCODE = 'check_violation';
  END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER "events_content_true" BEFORE INSERT ON "events" FOR EACH ROW EXECUTE FUNCTION refuse_untrue_content();

-- The chain. At commit, when everything else of the transaction is done, each of its events gets the next place; the
-- lock makes it one writer at a time, and since nothing else is waited for while it is held, nobody waits in a circle.
-- It is let go only after the commit is visible, so the next writer sees this one's last record.
CREATE FUNCTION chain_event() RETURNS trigger LANGUAGE plpgsql SECURITY DEFINER
  SET search_path = pg_catalog, pg_temp AS $$
DECLARE
  last_sequence bigint;
  last_hash bytea;
BEGIN
  PERFORM pg_advisory_xact_lock(7166020260101);
  SELECT "sequence", "hash" INTO last_sequence, last_hash FROM public."event_chain" ORDER BY "sequence" DESC LIMIT 1;
  IF NOT FOUND THEN
    last_sequence := 0;
    last_hash := decode(repeat('00', 32), 'hex');
  END IF;
  -- A transaction that reads from an older snapshot meets a place that is taken, and is told to begin again (40001).
  INSERT INTO public."event_chain" ("sequence", "event_id", "version", "previous", "hash")
  VALUES (last_sequence + 1, NEW."id", 1, last_hash, sha256(
    convert_to('countercheck-event-chain/1', 'UTF8') || '\x00'::bytea || last_hash || int8send(last_sequence + 1)
    || sha256(convert_to(NEW."content", 'UTF8'))))
  ON CONFLICT ("sequence") DO NOTHING;
  IF NOT FOUND THEN
    RAISE EXCEPTION 'the place in the event log was taken' USING ERRCODE = 'serialization_failure';
  END IF;
  RETURN NULL;
END $$;

-- What was logged before is chained in the order in which it was written.
DO $$
DECLARE
  next_sequence bigint := 0;
  last_hash bytea := decode(repeat('00', 32), 'hex');
  new_hash bytea;
  e record;
BEGIN
  FOR e IN SELECT "id", "content" FROM "events" ORDER BY "id" LOOP
    next_sequence := next_sequence + 1;
    new_hash := sha256(convert_to('countercheck-event-chain/1', 'UTF8') || '\x00'::bytea || last_hash
      || int8send(next_sequence) || sha256(convert_to(e."content", 'UTF8')));
    INSERT INTO "event_chain" ("sequence", "event_id", "previous", "hash")
    VALUES (next_sequence, e."id", last_hash, new_hash);
    last_hash := new_hash;
  END LOOP;
END $$;

CREATE CONSTRAINT TRIGGER "events_chained" AFTER INSERT ON "events" DEFERRABLE INITIALLY DEFERRED
  FOR EACH ROW EXECUTE FUNCTION chain_event();

DO $$
DECLARE t text;
BEGIN
  FOREACH t IN ARRAY ARRAY['event_chain', 'log_heads'] LOOP
    EXECUTE format('CREATE TRIGGER %I BEFORE UPDATE OR DELETE ON %I FOR EACH ROW EXECUTE FUNCTION refuse_change()', t || '_append_only', t);
    EXECUTE format('CREATE TRIGGER %I BEFORE TRUNCATE ON %I FOR EACH STATEMENT EXECUTE FUNCTION refuse_change()', t || '_no_truncate', t);
    EXECUTE format('GRANT SELECT ON %I TO countercheck_app', t);
    EXECUTE format('ALTER TABLE %I ENABLE ROW LEVEL SECURITY', t);
    EXECUTE format('CREATE POLICY inside ON %I FOR ALL TO countercheck_app USING ((SELECT app_inside())) WITH CHECK ((SELECT app_inside()))', t);
  END LOOP;
END $$;
GRANT INSERT ON "log_heads" TO countercheck_app;
