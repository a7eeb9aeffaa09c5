-- How the company decides near a limit: null is simple acceptance, a number the width of the guard band in expanded
-- uncertainties.
ALTER TABLE "company" ADD COLUMN "guard_band_factor" DOUBLE PRECISION;
ALTER TABLE "company" ADD CONSTRAINT "company_guard_band_plausible"
  CHECK ("guard_band_factor" BETWEEN 0.1 AND 2);
