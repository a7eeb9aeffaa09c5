import {
  cfmPer100ft2,
  plainNumber,
  statedUncertainty,
  type MeasuredValue,
  type Step,
} from '@countercheck/measurement';
import { derivedResults, type Measured } from '@countercheck/rules';
import type { ReadingOutcome } from '../measure.ts';

/** One part of a sum over a house: a system, or the ventilation unit. */
export interface Part {
  label: string;
  /** null while it has not been measured */
  outcome: ReadingOutcome | null;
}

const valueOf = (part: Part) => part.outcome?.values.find((each) => each.key === 'leakageAt25') ?? null;

function whyNot(parts: readonly Part[]): string | null {
  const refused = parts.flatMap(({ label, outcome }) =>
    outcome && !outcome.counts ? [`${label}: ${outcome.whyNot ?? 'the reading does not count'}`] : [],
  );
  const open = parts.filter((part) => part.outcome === null).map((part) => part.label);
  const missing = open.length > 0 ? [`the sum waits for ${open.join(' and ')}`] : [];
  const words = [...refused, ...missing].join(' ');
  return words === '' ? null : words;
}

/**
 * Readings with one instrument share its error, so their uncertainties add; those of different instruments
 * combine as the root of the sum of squares. Unknown when one of them is. Source: addition of fully
 * correlated and of independent quantities (GUM, from memory).
 */
function uncertaintyOf(parts: readonly Part[]): number | null {
  const byInstrument = new Map<string, number>();
  for (const part of parts) {
    const u = valueOf(part)?.standardUncertainty ?? null;
    const id = part.outcome?.instrumentId ?? null;
    if (u === null || id === null) return null;
    byInstrument.set(id, (byInstrument.get(id) ?? 0) + u);
  }
  return Math.hypot(...byInstrument.values());
}

/**
 * Duct leakage of a whole house (cfm at 25 Pa) as the sum of its parts, and per 100 ft² of conditioned floor.
 * Null when nothing has been measured; does not count, with the reason, until every part has a reading that
 * does. Never throws.
 * @param floorArea ft²
 */
export function sumDuctLeakage(
  test: 'duct-leakage-rough' | 'duct-leakage-total' | 'duct-leakage-outdoors',
  parts: readonly Part[],
  floorArea: number,
): Measured | null {
  const taken = parts.filter((part) => part.outcome !== null);
  if (taken.length === 0) return null;
  const several = parts.length > 1;
  const named = ({ label }: Part, words: string) => (several ? `${label}: ${words}` : words);
  const common = {
    remarks: taken.flatMap((part) => part.outcome!.remarks.map((words) => named(part, words))),
    readingIds: taken.map((part) => part.outcome!.readingId),
  };
  const steps: Step[] = taken.flatMap((part) =>
    part.outcome!.steps.map((step) => ({ ...step, label: named(part, step.label) })),
  );
  const refusal = whyNot(parts);
  const flows = parts.map(valueOf);
  if (refusal !== null || flows.some((each) => each === null))
    return { ...common, values: {}, counts: false, whyNot: refusal, steps };
  const sum = flows.reduce((total, each) => total + each!.value, 0);
  const working = flows.map((each) => plainNumber(each!.value)).join(' + ');
  if (several) steps.push({ label: 'All ducts of the house', working, value: sum, unit: 'cfm' });
  const [total, perArea] = derivedResults[test]!;
  const u = uncertaintyOf(parts);
  const values: MeasuredValue[] = [{ ...total!, value: sum, unit: 'cfm', ...statedUncertainty(u) }];
  const rate = cfmPer100ft2(sum, floorArea);
  if (rate.ok) {
    const doubt = statedUncertainty(u === null ? null : (u * 100) / floorArea);
    values.push({ ...perArea!, value: rate.value, unit: 'cfm/100ft2', ...doubt });
    steps.push({
      label: 'Per 100 ft² of conditioned floor',
      working: `${plainNumber(sum)} × 100 / ${plainNumber(floorArea)}`,
      value: rate.value,
      unit: 'cfm/100ft2',
    });
  }
  return {
    ...common,
    values: Object.fromEntries(values.map((each) => [each.key, each])),
    counts: true,
    whyNot: null,
    steps,
  };
}
