import type { Checked } from '../outcome.ts';
import { plainNumber } from '../units/round.ts';
import { type FigureSource, seen } from '../working/figure-source.ts';
import { finite, firstProblem, oneOf, statedUncertainties } from '../working/input.ts';
import { combined, gaveWorked, type Worked, worked } from '../working/worked.ts';

export const chargeMethods = [
  'superheat-fixed-metering',
  'subcooling-expansion-valve',
  'superheat-expansion-valve',
  'temperature-split',
] as const;
export type ChargeMethod = (typeof chargeMethods)[number];

const manual = (page: number) =>
  seen(
    `California RA3.2, 2008, as at https://www.manualshelf.com/manual/airflow/ra3/specifications-english/page-${page}.html`,
  );

interface Tolerance {
  /** `deviation` is ± around a target, °F; `span` is the measured figure itself between two ends, °F */
  kind: 'deviation' | 'span';
  installer: readonly [low: number, high: number];
  rater: readonly [low: number, high: number];
  source: FigureSource;
}

/**
 * The two tolerances of charge, °F: the installer's, and the rater's, one degree wider, so that a good
 * installation is not failed by the scatter of measuring again.
 */
export const chargeTolerances: Record<ChargeMethod, Tolerance> = {
  'superheat-fixed-metering': { kind: 'deviation', installer: [-5, 5], rater: [-6, 6], source: manual(15) },
  'subcooling-expansion-valve': { kind: 'deviation', installer: [-3, 3], rater: [-4, 4], source: manual(16) },
  'superheat-expansion-valve': { kind: 'span', installer: [4, 25], rater: [3, 26], source: manual(16) },
  'temperature-split': { kind: 'deviation', installer: [-3, 3], rater: [-4, 4], source: manual(17) },
};

export interface ChargeReading {
  method: ChargeMethod;
  /** whose tolerance holds */
  by: 'installer' | 'rater';
  /** measured superheat, subcooling or split, °F (a difference of temperatures) */
  measured: number;
  /** target, °F; not used for the superheat of an expansion valve */
  target?: number;
  standardUncertainty?: number | null;
}

export interface ChargeFinding extends Worked<'°F'> {
  within: boolean;
  allowed: readonly [low: number, high: number];
  source: FigureSource;
}

/**
 * Whether a charge test is within the tolerance of whoever measured, °F: the deviation measured − target, or for
 * the superheat of an expansion valve the figure itself. Ends are included.
 * Problems: `unknown-choice`, `not-a-number` (a missing target too), `bad-uncertainty`. Never throws.
 * Source: California RA3.2 (2008), pages named in `chargeTolerances` (seen). Gauges are connected by people licensed
 * for refrigerant only.
 */
export function withinChargeTolerance(reading: ChargeReading): Checked<ChargeFinding> {
  const { method, by, measured, target, standardUncertainty } = reading;
  const wrong = firstProblem(
    oneOf('method', 'The charge test', method, chargeMethods),
    oneOf('by', 'Who measured', by, ['installer', 'rater']),
    finite('measured', 'The measured temperature difference', measured, '°F'),
    statedUncertainties({ measured: standardUncertainty }),
  );
  if (wrong) return wrong;
  const tolerance = chargeTolerances[method];
  const needsTarget = tolerance.kind === 'deviation';
  const missing = needsTarget ? finite('target', 'The target', target ?? NaN, '°F') : null;
  if (missing) return { ok: false, problem: missing };
  const value = needsTarget ? measured - (target ?? NaN) : measured;
  const working = needsTarget
    ? `${plainNumber(measured)} − ${plainNumber(target ?? NaN)}`
    : plainNumber(measured);
  const allowed = tolerance[by];
  const [low, high] = allowed;
  const label = needsTarget ? 'Deviation from the target' : 'Superheat';
  const step = { label, working, value, unit: '°F' };
  return gaveWorked(worked('°F', value, combined([[1, standardUncertainty]]), [step]), {
    within: value >= low - 1e-9 && value <= high + 1e-9,
    allowed,
    source: tolerance.source,
  });
}
