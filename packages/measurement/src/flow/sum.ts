import type { Step } from '../types.ts';
import { plainNumber } from '../units/round.ts';

/** One flow to be added: cfm, its standard uncertainty (cfm; null when not known) and what it is the flow of. */
export interface FlowPart {
  label: string;
  flow: number;
  standardUncertainty: number | null;
  /** the instrument that read it, by any name; matters to `by-instrument` only */
  instrument?: string | null;
}

/** How the errors of the parts belong together; see `sumFlows`. */
export type SharedErrors = 'shared' | 'independent' | 'by-instrument';

export interface FlowSum {
  /** cfm */
  flow: number;
  /** cfm; null when that of any part is not known */
  standardUncertainty: number | null;
  step: Step;
}

/**
 * Sum of flows, e.g. of the terminals of one airstream or the inlets of one fan (cfm).
 * @param errors `shared` when one instrument read all parts: its error is the same sign in each, so the
 * uncertainties add, u = Σu; `independent` when they have nothing to do with each other: u = √Σu²; `by-instrument`
 * when each part names its own: shared among the parts of one instrument, independent between instruments. A part
 * that names none counts as read with the same unnamed one as the others.
 * Source: JCGM 100, 5.2.2 note 1 and 5.1.2 (from memory). No parts give 0 with uncertainty 0. A part that is
 * not finite gives NaN. Never throws.
 */
export function sumFlows(parts: FlowPart[], errors: SharedErrors, label: string): FlowSum {
  const flow = parts.reduce((sum, part) => sum + part.flow, 0);
  const working = parts.map((part) => `${plain(part.flow)}`).join(' + ') || '0';
  return {
    flow,
    standardUncertainty: combined(parts, errors),
    step: { label, working, value: flow, unit: 'cfm' },
  };
}

function combined(parts: FlowPart[], errors: SharedErrors): number | null {
  const groups = new Map<string | number, number>();
  for (const [i, { standardUncertainty, instrument }] of parts.entries()) {
    if (standardUncertainty === null) return null;
    const group = { shared: 0, independent: i, 'by-instrument': instrument ?? 0 }[errors];
    groups.set(group, (groups.get(group) ?? 0) + standardUncertainty);
  }
  return Math.hypot(...groups.values());
}

function plain(value: number): string {
  return Number.isFinite(value) ? plainNumber(value) : String(value);
}
