import type { FigureSource } from '../working/figure-source.ts';

/** The texts whose combustion figures are here; they differ, so a record names the one that was worked by. */
export const combustionProtocols = {
  'older-building-analyst': 'older building analyst standard (BPI)',
  'bpi-1200': 'BPI-1200 and ACCA 12 QH',
  'fuel-gas-code': 'fuel gas code (IFGC), Appendix D',
  'appliance-standard': 'appliance standard (ANSI Z21)',
  'programme-study': 'limits of one programme, from a study',
  company: 'the company’s own figures',
} as const;
export type CombustionProtocol = keyof typeof combustionProtocols;

/** What is to be done, from the mildest on. `stop-work` is for a person to act on at once. */
export const combustionActions = ['none', 'advise', 'correct', 'stop-work'] as const;
export type CombustionAction = (typeof combustionActions)[number];

/** A figure of one protocol and what is to be done when it is reached. */
export interface CombustionThreshold {
  /** stable, e.g. `room-co.older-building-analyst.stop-work`; the company confirms and replaces by it */
  id: string;
  protocol: CombustionProtocol;
  /** reached when the reading is above the value, or already when it equals it */
  reached: 'above' | 'at-or-above';
  value: number;
  unit: 'ppm' | 's' | 'Pa' | '% LEL';
  action: CombustionAction;
  /** the appliance, vent or venting it is for; absent means all */
  of?: string;
  /** for carbon monoxide in flue gas: corrected to no excess air, or as the analyser shows it */
  basis?: 'air-free' | 'as-measured';
  source: FigureSource;
}

/** What a company decided about the figures: which it confirmed, and its own in their place. */
export interface CompanyFigures {
  /** ids of thresholds that the company confirmed as they are */
  confirmed?: readonly string[];
  /** the company's own; one with the id of a shipped threshold replaces it */
  own?: readonly CombustionThreshold[];
}

export const combustionCaution =
  'Local codes, the fuel supplier and licensed practice come before these figures. A person acts on a stop, at ' +
  'once; it is never averaged, sampled or set aside.';

/** The thresholds with the company's own in place. Never throws. */
export function withOwnFigures(
  shipped: readonly CombustionThreshold[],
  { own = [] }: CompanyFigures,
): CombustionThreshold[] {
  const replaced = new Set(own.map(({ id }) => id));
  return [...shipped.filter(({ id }) => !replaced.has(id)), ...own];
}

/**
 * Whether a threshold may be judged by: its text was seen, or the company confirmed it. Never throws.
 */
export function isUsable({ id, source }: CombustionThreshold, { confirmed = [] }: CompanyFigures): boolean {
  return source.confirmed || confirmed.includes(id);
}

/** Whether a reading reaches a threshold. NaN reaches every one: an unknown reading is not a safe one. */
export function isReached(reading: number, { reached, value }: CombustionThreshold): boolean {
  if (Number.isNaN(reading)) return true;
  return reached === 'above' ? reading > value : reading >= value;
}

/** The sternest of several thresholds that are reached, or null. Of equal actions the first. Never throws. */
export function sternest(
  reading: number,
  thresholds: readonly CombustionThreshold[],
): CombustionThreshold | null {
  const rank = ({ action }: CombustionThreshold) => combustionActions.indexOf(action);
  return thresholds
    .filter((threshold) => isReached(reading, threshold))
    .reduce<CombustionThreshold | null>(
      (found, threshold) => (found && rank(found) >= rank(threshold) ? found : threshold),
      null,
    );
}
