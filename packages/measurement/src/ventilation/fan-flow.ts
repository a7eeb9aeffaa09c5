import { type Checked, problem } from '../outcome.ts';
import { plainNumber } from '../units/round.ts';
import { firstProblem, oneOf, share } from '../working/input.ts';
import { type Contribution, combined, gaveWorked, type WorkingLine, worked } from '../working/worked.ts';
import { type FlowOfForm, flowUnits, type VentilationFlow } from './form.ts';
import { flowProblem, type VentilationEdition, zeroFlowProblem } from './form.ts';

/** Largest infiltration that a new house may be credited with, as a share of the total rate. */
export const largestCreditNewHouse = 2 / 3;

const creditEditions = ['2013', '2016', '2019', '2022'] as const satisfies VentilationEdition[];

export interface CreditCase {
  edition: (typeof creditEditions)[number];
  /** the total required rate, e.g. the result of `requiredRateInchPound` */
  total: FlowOfForm;
  /** the effective annual infiltration in the same form, e.g. the result of `infiltrationInchPound` */
  infiltration: FlowOfForm;
  /** true when supply and exhaust of the whole-house ventilation are balanced */
  balanced: boolean;
  newConstruction: boolean;
  /** share of the envelope area that borders on outdoors, above 0 to 1; 1 for a detached house */
  exteriorShare?: number;
}

export interface FanFlow extends VentilationFlow {
  /** factor for an unbalanced system, 1 when balanced and in the editions without it */
  phi: number;
  /** what the infiltration took off the total, in the unit of the result */
  credit: number;
  /** true when the infiltration was cut to two thirds of the total */
  capped: boolean;
}

/**
 * The flow the whole-house fan has to give after the credit for infiltration, in the unit of the form:
 * Qfan = Qtot − phi · Qinf · Aext, never below zero. 2019 and 2022: phi = 1 when balanced, else Qinf / Qtot; 2013
 * and 2016: phi = 1. In new construction Qinf counts up to 2/3 · Qtot.
 * Uncertainty: that of the total and the infiltration, when both are known.
 * Problems: `mixed-forms` (one flow inch-pound, one SI), `no-credit` (2010, or an attached dwelling in 2013),
 * `not-above-zero`, `below-zero`, `bad-share`, `unknown-choice`, `bad-uncertainty`. Never throws.
 * Source: Equation 4-2 of 2019 and 2022 as in a public code's docstring (seen); the cap as in an equipment maker's
 * primer on 2013 (seen, address withheld), that it holds for 2019 and 2022 and cuts Qinf before phi from memory;
 * the form of 2013 and 2016 from memory, its example 102 − 30 = 72 seen in that primer.
 */
export function requiredFanFlow(house: CreditCase): Checked<FanFlow> {
  const { edition, total, infiltration, exteriorShare = 1 } = house;
  const wrong =
    firstProblem(
      oneOf('edition', 'The edition of ASHRAE 62.2 with an infiltration credit', edition, creditEditions),
      share('exteriorShare', 'The share of the envelope that borders on outdoors', exteriorShare),
    ) ??
    flowProblem('total', 'The total rate', total) ??
    zeroFlowProblem('infiltration', 'The infiltration', infiltration) ??
    refusedCredit(house, exteriorShare);
  if (wrong) return wrong;
  const cap = house.newConstruction ? largestCreditNewHouse * total.value : Infinity;
  const capped = infiltration.value > cap;
  const counted = capped ? cap : infiltration.value;
  const unbalanced = !house.balanced && (edition === '2019' || edition === '2022');
  const phi = unbalanced ? counted / total.value : 1;
  const credit = phi * counted * exteriorShare;
  const value = Math.max(0, total.value - credit);
  const u = combined(sensitivities(house, { capped, unbalanced, counted, exteriorShare }));
  const flow = worked(
    flowUnits[total.form],
    value,
    u,
    working(house, { cap, capped, unbalanced, phi, credit }),
    [
      ...(capped
        ? ['infiltration cut to two thirds of the total, the most that a new house may be credited']
        : []),
      ...(credit >= total.value
        ? ['infiltration alone gives the total; no fan flow is left to require']
        : []),
    ],
  );
  return gaveWorked(flow, { form: total.form, equation: equationOf(house), phi, credit, capped });
}

function refusedCredit({ edition, total, infiltration }: CreditCase, exteriorShare: number) {
  if (total.form !== infiltration.form) {
    return problem(
      'infiltration.form',
      'mixed-forms',
      `The total rate is of the ${total.form} form, the infiltration of the ${infiltration.form} form. The forms ` +
        'differ by 1 to 2 %; work both out in one.',
    );
  }
  if (edition === '2013' && exteriorShare < 1) {
    return problem(
      'exteriorShare',
      'no-credit',
      'The 2013 edition is remembered to credit detached houses only (from memory); take the total rate.',
    );
  }
  return null;
}

interface Taken {
  capped: boolean;
  unbalanced: boolean;
  counted: number;
  exteriorShare: number;
}

function sensitivities({ total, infiltration }: CreditCase, taken: Taken): Contribution[] {
  const { capped, unbalanced, exteriorShare } = taken;
  const ratio = taken.counted / total.value;
  if (capped) {
    // Cut to a share of the total, the infiltration's own error no longer matters.
    const kept = unbalanced ? ratio ** 2 : ratio;
    return [
      [1 - kept * exteriorShare, total.standardUncertainty],
      [0, infiltration.standardUncertainty],
    ];
  }
  return [
    [unbalanced ? 1 + ratio ** 2 * exteriorShare : 1, total.standardUncertainty],
    [(unbalanced ? 2 * ratio : 1) * exteriorShare, infiltration.standardUncertainty],
  ];
}

interface Shown {
  cap: number;
  capped: boolean;
  unbalanced: boolean;
  phi: number;
  credit: number;
}

function working({ total, infiltration, exteriorShare = 1 }: CreditCase, shown: Shown): WorkingLine[] {
  const unit = flowUnits[total.form];
  const lines: WorkingLine[] = [];
  const [all, leaks] = [plainNumber(total.value), plainNumber(infiltration.value)];
  if (shown.capped) {
    lines.push({ label: 'Infiltration counted', working: `2/3 × ${all}`, value: shown.cap, unit });
  }
  const counted = shown.capped ? plainNumber(shown.cap) : leaks;
  if (shown.unbalanced) {
    lines.push({
      label: 'Factor for an unbalanced system',
      working: `${counted} / ${all}`,
      value: shown.phi,
      unit: '1',
    });
  }
  const credit = `${plainNumber(shown.phi)} × ${counted} × ${plainNumber(exteriorShare)}`;
  lines.push({ label: 'Infiltration credit', working: credit, value: shown.credit, unit });
  const value = Math.max(0, total.value - shown.credit);
  const last = `max(0, ${all} − ${plainNumber(shown.credit)})`;
  return [...lines, { label: 'Required fan flow', working: last, value, unit }];
}

function equationOf({ edition, total }: CreditCase): string {
  const number = edition === '2019' || edition === '2022' ? 'Equation 4-2' : '4.1.2, from memory';
  return `ASHRAE 62.2-${edition}, ${number} (${total.form})`;
}
