import type { FigureSource } from '../working/figure-source.ts';

export const energyCodeEditions = ['2009', '2012', '2015', '2018', '2021', '2024'] as const;
export type EnergyCodeEdition = (typeof energyCodeEditions)[number];

/** What a code limits. Duct leakage is in cfm at 25 Pa per 100 ft² of conditioned floor. */
export const codeLimitKinds = [
  'envelope-air-changes',
  'duct-rough-with-air-handler',
  'duct-rough-without-air-handler',
  'duct-final-total',
  'duct-final-outdoors',
] as const;
export type CodeLimitKind = (typeof codeLimitKinds)[number];

/** One limit: an edition's, or a jurisdiction's amendment. */
export interface CodeFigure {
  /** `any` for an amendment that was seen without the edition that it amends */
  edition: EnergyCodeEdition | 'any';
  kind: CodeLimitKind;
  /** climate zones by number, both ends included */
  zones: readonly [from: number, to: number];
  /** `prescriptive` by default; `cap` holds on any path and is laxer or equal */
  path?: 'prescriptive' | 'cap';
  /** holds only where all ducts and air handlers are inside (true) or not (false); absent: either way */
  allInside?: boolean;
  /** null when the edition asks for no test */
  limit: number | null;
  /** `at-most`: the limit itself passes; `below`: it does not */
  check: 'at-most' | 'below';
  unit: '1/h' | 'cfm/100ft2';
  section: string;
  source: FigureSource;
  /** the place whose amendment it is; absent for the published edition itself */
  jurisdiction?: string;
  note?: string;
}

/** Every climate zone. Duct limits do not differ by zone. */
export const anyZone = [0, 8] as const;
