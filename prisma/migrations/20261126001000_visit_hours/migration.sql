-- AlterTable
ALTER TABLE "visit_requests" ADD COLUMN     "open_from" TEXT,
ADD COLUMN     "open_to" TEXT;

-- Times of day as the company's clocks show them, both or neither, in order.
ALTER TABLE "visit_requests" ADD CONSTRAINT "visit_requests_open_hours" CHECK (
  ("open_from" IS NULL AND "open_to" IS NULL)
  OR ("open_from" ~ '^([01][0-9]|2[0-3]):[0-5][0-9]$' AND "open_to" ~ '^([01][0-9]|2[0-3]):[0-5][0-9]$'
    AND "open_from" < "open_to"));
