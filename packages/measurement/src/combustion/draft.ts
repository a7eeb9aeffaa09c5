import { type Checked, problem } from '../outcome.ts';
import { plainNumber } from '../units/round.ts';
import { fromMemory, type FigureSource } from '../working/figure-source.ts';
import { finite, firstProblem, statedUncertainties } from '../working/input.ts';
import { combined, gaveWorked, type Worked, worked } from '../working/worked.ts';

/** The older draft line; the company confirms it before anybody is judged by it. */
export const draftLineSource: FigureSource = fromMemory('older building analyst standard (BPI), least draft');

/** The least draft of a natural-draft vent at an outdoor temperature. */
export interface LeastDraft extends Worked<'Pa'> {
  source: FigureSource;
}

/**
 * The least draft in the vent of a natural-draft appliance by the outdoor temperature, Pa, below zero: −2.5 below
 * 10 °F, T / 40 − 2.75 from 10 to 90 °F, −0.5 above.
 * @param outdoorTemperature °F @param standardUncertainty of it, °F; null when not known
 * Problems: `not-a-number`, `bad-uncertainty`. Never throws. Source: older building analyst standard (from memory);
 * −2.50 at 10, −2.00 at 30, −1.50 at 50 and −0.50 at 90 °F computed independently.
 */
export function leastDraft(
  outdoorTemperature: number,
  standardUncertainty: number | null = null,
): Checked<LeastDraft> {
  const wrong = firstProblem(
    finite('outdoorTemperature', 'The outdoor temperature', outdoorTemperature, '°F'),
    statedUncertainties({ outdoorTemperature: standardUncertainty }),
  );
  if (wrong) return wrong;
  const counted = Math.min(90, Math.max(10, outdoorTemperature));
  const value = counted / 40 - 2.75;
  const working = `${plainNumber(counted)} / 40 − 2.75`;
  const slope = counted === outdoorTemperature ? 1 / 40 : 0;
  const u = combined([[slope, standardUncertainty]]);
  const remarks = ['the draft line is from memory; the company confirms it before use'];
  const step = { label: 'Least draft', working, value, unit: 'Pa' };
  return gaveWorked(worked('Pa', value, u, [step], remarks), { source: draftLineSource });
}

/**
 * Whether a vent draws enough: the draft is at or below the least draft (both below zero).
 * @param draft pressure in the vent to the zone, Pa, with its sign
 * @param confirmedByCompany true once the company has confirmed the draft line; else `limits-not-set`
 * Other problems: `not-a-number`. Never throws. Source: as `leastDraft`.
 */
export function drawsEnough(
  draft: number,
  outdoorTemperature: number,
  confirmedByCompany: boolean,
): Checked<{ enough: boolean; least: LeastDraft }> {
  const wrong = firstProblem(finite('draft', 'The draft', draft, 'Pa'));
  if (wrong) return wrong;
  const least = leastDraft(outdoorTemperature);
  if (!least.ok) return least;
  if (!confirmedByCompany) {
    const words =
      'The draft line was not seen in any text; the company confirms it before anybody is judged by it.';
    return problem('confirmedByCompany', 'limits-not-set', words);
  }
  return { ok: true, value: { enough: draft <= least.value.value + 1e-9, least: least.value } };
}
