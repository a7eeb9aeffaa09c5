-- Whether somebody set the minutes of a request; otherwise they follow the items that apply to the house.
ALTER TABLE "visit_requests" ADD COLUMN     "minutes_given" BOOLEAN NOT NULL DEFAULT false;
