import {
  houseDuctLeakage,
  type MeasuredValue,
  type Step,
  type Unit,
  type Worked,
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

function resultOf(
  named: Pick<MeasuredValue, 'key' | 'label' | 'quantity'>,
  { steps: _steps, remarks: _remarks, ...stated }: Worked<Unit>,
): MeasuredValue {
  return { ...named, ...stated };
}

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
  const sum = houseDuctLeakage(
    parts.map(({ label, outcome }, i) => ({
      label,
      flow: flows[i]!.value,
      standardUncertainty: flows[i]!.standardUncertainty,
      instrument: outcome?.instrumentId ?? null,
    })),
    Number.isFinite(floorArea) && floorArea > 0 ? floorArea : null,
  );
  if (!sum.ok) return { ...common, values: {}, counts: false, whyNot: sum.problem.message, steps };
  const { total, perFloorArea } = sum.value;
  const [ofTotal, ofArea] = derivedResults[test]!;
  const values = [resultOf(ofTotal!, total)];
  if (several) steps.push(...(total.steps as Step[]));
  if (perFloorArea) {
    values.push(resultOf(ofArea!, perFloorArea));
    steps.push(...(perFloorArea.steps as Step[]));
  }
  return {
    ...common,
    values: Object.fromEntries(values.map((each) => [each.key, each])),
    counts: true,
    whyNot: null,
    steps,
  };
}
