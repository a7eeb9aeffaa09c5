-- What a verdict was reached with stays as it was recorded, and not for the service's own role alone: a mistake is
-- corrected by another record beside it. Only what is named may be filled in, or changed.
CREATE FUNCTION refuse_other_columns() RETURNS trigger LANGUAGE plpgsql AS $$
DECLARE
  open text[] := TG_ARGV;
BEGIN
  IF (to_jsonb(NEW) - open) IS DISTINCT FROM (to_jsonb(OLD) - open) THEN
    RAISE EXCEPTION '% keeps what was recorded', TG_TABLE_NAME USING ERRCODE = 'insufficient_privilege';
  END IF;
  RETURN NEW;
END $$;

-- Who signed which figures of which house when, not only the figures.
CREATE TRIGGER "installer_submissions_stay" BEFORE UPDATE ON "installer_submissions"
  FOR EACH ROW EXECUTE FUNCTION refuse_other_columns('frozen_at');
-- From when on a rule set holds, not only what it says.
CREATE TRIGGER "rule_sets_stay" BEFORE UPDATE ON "rule_sets"
  FOR EACH ROW EXECUTE FUNCTION refuse_other_columns('offered');
-- A photo is given to the failed item that it shows, once.
CREATE TRIGGER "attachments_stay" BEFORE UPDATE ON "attachments"
  FOR EACH ROW EXECUTE FUNCTION refuse_other_columns('failed_item_id');
CREATE TRIGGER "attachments_given_once" BEFORE UPDATE OF "failed_item_id" ON "attachments" FOR EACH ROW
  WHEN (OLD."failed_item_id" IS NOT NULL AND NEW."failed_item_id" IS DISTINCT FROM OLD."failed_item_id")
  EXECUTE FUNCTION refuse_change();
CREATE TRIGGER "review_findings_stay" BEFORE UPDATE ON "review_findings"
  FOR EACH ROW EXECUTE FUNCTION refuse_other_columns('answer', 'answered_at');

DO $$
DECLARE t text;
BEGIN
  FOREACH t IN ARRAY ARRAY['instrument_calibrations', 'reviews', 'failed_item_entries'] LOOP
    EXECUTE format('CREATE TRIGGER %I BEFORE UPDATE OR DELETE ON %I FOR EACH ROW EXECUTE FUNCTION refuse_change()', t || '_append_only', t);
    EXECUTE format('REVOKE UPDATE, DELETE ON %I FROM countercheck_app', t);
  END LOOP;
  FOREACH t IN ARRAY ARRAY['installer_submissions', 'rule_sets', 'attachments', 'review_findings'] LOOP
    EXECUTE format('CREATE TRIGGER %I BEFORE DELETE ON %I FOR EACH ROW EXECUTE FUNCTION refuse_change()', t || '_not_removed', t);
  END LOOP;
  FOREACH t IN ARRAY ARRAY['instrument_calibrations', 'reviews', 'failed_item_entries', 'installer_submissions',
                           'rule_sets', 'attachments', 'review_findings'] LOOP
    EXECUTE format('CREATE TRIGGER %I BEFORE TRUNCATE ON %I FOR EACH STATEMENT EXECUTE FUNCTION refuse_change()', t || '_no_truncate', t);
  END LOOP;
END $$;
