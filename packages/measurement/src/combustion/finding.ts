import { type Checked, problem } from '../outcome.ts';
import { combined, gaveWorked, type Worked, worked } from '../working/worked.ts';
import { combustionCaution, combustionProtocols, isReached, isUsable, sternest } from './thresholds.ts';
import { withOwnFigures } from './thresholds.ts';
import type {
  CombustionAction,
  CombustionProtocol,
  CombustionThreshold,
  CompanyFigures,
} from './thresholds.ts';

/** What one protocol makes of a reading. */
export interface ProtocolView {
  protocol: CombustionProtocol;
  action: CombustionAction;
  confirmed: boolean;
}

/** A reading judged by a named protocol. */
export interface CombustionFinding<U extends string = string> extends Worked<U> {
  /** the protocol that was asked for; it belongs into the record */
  protocol: CombustionProtocol;
  action: CombustionAction;
  /** the figure that decided, or null when none was reached */
  threshold: CombustionThreshold | null;
  /** other protocols that come to another action at this reading */
  conflicts: ProtocolView[];
  caution: string;
}

export interface Judging<U extends string> {
  label: string;
  unit: U;
  value: number;
  standardUncertainty: number | null | undefined;
  protocol: CombustionProtocol;
  shipped: readonly CombustionThreshold[];
  company: CompanyFigures;
  /** thresholds that hold whatever the protocol: the stops that were seen */
  always?: (threshold: CombustionThreshold) => boolean;
}

/**
 * Judges a reading by the usable thresholds of one protocol and by those that always hold. A protocol without any
 * usable figure is refused with `limits-not-set`, unless a threshold that always holds was reached: nothing may
 * stand between a dangerous reading and the stop. Other protocols that come to another action are named.
 */
export function judge<U extends string>(judging: Judging<U>): Checked<CombustionFinding<U>> {
  const { label, unit, value, protocol, company, always = () => false } = judging;
  const all = withOwnFigures(judging.shipped, company);
  const ofProtocol = all.filter((threshold) => threshold.protocol === protocol);
  const usable = ofProtocol.filter((threshold) => isUsable(threshold, company));
  // A protocol decides about its own stop; until it has a usable one, the stops that were seen stay on.
  const ownStop = usable.some(({ action }) => action === 'stop-work');
  const held = ownStop ? usable : [...usable, ...all.filter(always)];
  const threshold = sternest(value, held);
  if (usable.length === 0 && !threshold) return notSet(protocol, ofProtocol);
  const remarks = [
    ...unconfirmedRemark(ofProtocol, usable),
    ...(threshold && threshold.protocol !== protocol ? [fallback(protocol, threshold)] : []),
  ];
  const u = combined([[1, judging.standardUncertainty]]);
  const action = threshold?.action ?? 'none';
  return gaveWorked(worked(unit, value, u, [{ label, working: String(value), value, unit }], remarks), {
    protocol,
    action,
    threshold,
    conflicts: viewsOf(value, all, company).filter(
      (view) => view.protocol !== protocol && view.action !== action,
    ),
    caution: combustionCaution,
  });
}

function viewsOf(
  value: number,
  all: readonly CombustionThreshold[],
  company: CompanyFigures,
): ProtocolView[] {
  return [...new Set(all.map(({ protocol }) => protocol))].map((protocol) => {
    const own = all.filter((threshold) => threshold.protocol === protocol);
    const reached = own.filter((threshold) => isReached(value, threshold));
    const confirmed = (reached.length > 0 ? reached : own).every((threshold) => isUsable(threshold, company));
    return { protocol, action: sternest(value, own)?.action ?? 'none', confirmed };
  });
}

function notSet(protocol: CombustionProtocol, ofProtocol: readonly CombustionThreshold[]) {
  const ids = ofProtocol.map(({ id }) => id).join(', ');
  return problem(
    'protocol',
    'limits-not-set',
    `The figures for this by ${combustionProtocols[protocol]} ` +
      `${ids ? `were not seen (${ids})` : 'are not known here'}; the company sets or confirms them before use.`,
  );
}

function fallback(protocol: CombustionProtocol, { protocol: other }: CombustionThreshold): string {
  return (
    `${combustionProtocols[protocol]} has no usable figure here that stops the work; judged by the stop of the ` +
    combustionProtocols[other]
  );
}

function unconfirmedRemark(
  ofProtocol: readonly CombustionThreshold[],
  usable: readonly CombustionThreshold[],
): string[] {
  const left = ofProtocol.filter((threshold) => !usable.includes(threshold));
  return left.map(({ id }) => `${id} is not confirmed and was not used`);
}
