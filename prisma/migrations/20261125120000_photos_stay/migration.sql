-- A photo is evidence: its bytes stay as they came, and what it shows is not told anew. Only which failed item
-- it belongs to may be filled in, when the visit is submitted.
CREATE TRIGGER "stored_files_append_only" BEFORE UPDATE OR DELETE ON "stored_files"
  FOR EACH ROW EXECUTE FUNCTION refuse_change();
CREATE TRIGGER "stored_files_no_truncate" BEFORE TRUNCATE ON "stored_files"
  FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
REVOKE UPDATE, DELETE ON "stored_files" FROM countercheck_app;
REVOKE UPDATE ON "attachments" FROM countercheck_app;
GRANT UPDATE ("failed_item_id") ON "attachments" TO countercheck_app;
