import { aboveZero, firstProblem, oneOf, statedUncertainties, zeroOrMore } from '../working/input.ts';
import type { Worked } from '../working/worked.ts';

/** The editions of ASHRAE 62.2 whose equations are here. */
export const ventilationEditions = ['2010', '2013', '2016', '2019', '2022'] as const;
export type VentilationEdition = (typeof ventilationEditions)[number];

/**
 * The form of the equations that gave a number. The two forms of the standard are rounded on their own and
 * differ by 1 to 2 %, so a number of one form is never converted into or added to one of the other.
 */
export type VentilationForm = 'inch-pound' | 'si';

/** The unit of flow that belongs to each form. */
export interface FlowUnits {
  'inch-pound': 'cfm';
  si: 'L/s';
}
export const flowUnits: FlowUnits = { 'inch-pound': 'cfm', si: 'L/s' };

/** A flow of air for ventilation that says by which form and which equation it was found. */
export interface VentilationFlow<F extends VentilationForm = VentilationForm> extends Worked<FlowUnits[F]> {
  form: F;
  /** standard, edition, equation and form, e.g. `ASHRAE 62.2-2019, Equation 4.1a (inch-pound)` */
  equation: string;
}

/** The least that a function needs to know of a flow: the number, its form and perhaps its uncertainty. */
export interface FlowOfForm {
  /** cfm in the inch-pound form, L/s in the SI form */
  value: number;
  form: VentilationForm;
  standardUncertainty?: number | null;
}

/**
 * What is wrong with a flow, or null: `unknown-choice` for its form, `not-above-zero`, `bad-uncertainty`. Paths
 * start with `path`. Never throws.
 */
export function flowProblem(path: string, label: string, flow: FlowOfForm) {
  return firstProblem(
    oneOf(`${path}.form`, `The form of ${label.toLowerCase()}`, flow.form, Object.keys(flowUnits)),
    aboveZero(path, label, flow.value, flowUnits[flow.form]),
    statedUncertainties({ [path]: flow.standardUncertainty }),
  );
}

/** As `flowProblem`, for a flow that may be zero: `below-zero` in place of `not-above-zero`. Never throws. */
export function zeroFlowProblem(path: string, label: string, flow: FlowOfForm) {
  return firstProblem(
    oneOf(`${path}.form`, `The form of ${label.toLowerCase()}`, flow.form, Object.keys(flowUnits)),
    zeroOrMore(path, label, flow.value, flowUnits[flow.form]),
    statedUncertainties({ [path]: flow.standardUncertainty }),
  );
}
