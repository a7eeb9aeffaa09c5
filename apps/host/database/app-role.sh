#!/bin/bash
# Runs once, when the volume is empty. The API's role owns nothing, so row level security binds it; the
# migrations grant it what it needs.
set -euo pipefail
psql --set ON_ERROR_STOP=1 --set password="$APP_PASSWORD" --username "$POSTGRES_USER" --dbname "$POSTGRES_DB" <<'SQL'
CREATE ROLE countercheck_app LOGIN NOSUPERUSER NOBYPASSRLS NOCREATEDB NOCREATEROLE PASSWORD :'password';
SQL
