import { type Checked, computed, problem } from '../outcome.ts';
import { firstProblem, oneOf } from '../working/input.ts';
import { type CodeFigure, type CodeLimitKind, codeLimitKinds, energyCodeEditions } from './code-figure.ts';
import type { EnergyCodeEdition } from './code-figure.ts';
import { energyCodeFigures } from './energy-code-figures.ts';

export interface CodeLimitOptions {
  /** `prescriptive` by default; `cap` is what holds on any path, from 2021 on */
  path?: 'prescriptive' | 'cap';
  /** all ducts and air handlers visibly inside conditioned space; false by default */
  allInside?: boolean;
  /** the place whose amendment goes first, e.g. one of `seenAmendments` or of the company's own */
  jurisdiction?: string;
  /** the jurisdictions' and the company's own figures, which go before the published ones */
  amendments?: readonly CodeFigure[];
}

/** A limit with where it stands. `limit` null: no test is asked for. Unless `source.confirmed`, say so. */
export interface CodeLimit extends CodeFigure {
  /** the zone's number and moisture regime that were asked for */
  zone: ClimateZone;
  remarks: string[];
}

export interface ClimateZone {
  /** 0 (hottest) to 8 */
  number: number;
  moisture: 'A' | 'B' | 'C' | null;
}

/**
 * Reads a climate zone as the energy code writes it: `5A`, `5`, `8`, `0B`, `marine 4` (that is 4C).
 * Problems: `bad-zone`. Never throws. Source: zones 1A to 8 in the public data format for home energy ratings
 * (seen); zone 0 from 2021 on and the marine zone, from memory.
 */
export function readClimateZone(text: string): Checked<ClimateZone> {
  const found = /^(?:(marine)\s*)?([0-8])\s*([abc])?$/i.exec(String(text).trim());
  const [, marine, digit, letter] = found ?? [];
  if (digit === undefined || (marine && letter && letter.toLowerCase() !== 'c')) {
    const words = `"${text}" is no climate zone; it is a number from 0 to 8 with A, B or C where it has one.`;
    return problem('zone', 'bad-zone', words);
  }
  const moisture = marine ? 'C' : letter?.toUpperCase();
  return computed({
    number: Number(digit),
    moisture: (moisture as ClimateZone['moisture'] | undefined) ?? null,
  });
}

/**
 * The limit that an energy code edition (IECC, residential) or its local amendment sets.
 * @param edition `2009` to `2024` @param kind see `codeLimitKinds`; envelope in air changes per hour at 50 Pa, ducts
 * in cfm at 25 Pa per 100 ft² of conditioned floor
 * @param zone as `readClimateZone` reads it; marine zone 4 counts with zone 5 in some tables, none of which is here
 * Problems: `unknown-choice`, `bad-zone`, `no-limit` (nothing known for that case: never a limit from nearby).
 * Never throws. Source: in each figure; jurisdictions differ, so an amendment given for the named jurisdiction
 * goes first, and the result remarks on what is not confirmed.
 */
export function codeLimit(
  edition: EnergyCodeEdition,
  kind: CodeLimitKind,
  zone: string,
  options: CodeLimitOptions = {},
): Checked<CodeLimit> {
  const { path = 'prescriptive', allInside = false, jurisdiction, amendments = [] } = options;
  const wrong = firstProblem(
    oneOf('edition', 'The edition of the energy code', edition, energyCodeEditions),
    oneOf('kind', 'The kind of limit', kind, codeLimitKinds),
    oneOf('path', 'The path', path, ['prescriptive', 'cap']),
  );
  if (wrong) return wrong;
  const read = readClimateZone(zone);
  if (!read.ok) return read;
  const fits = (figure: CodeFigure) =>
    (figure.edition === edition || figure.edition === 'any') &&
    figure.kind === kind &&
    (figure.path ?? 'prescriptive') === path &&
    figure.zones[0] <= read.value.number &&
    read.value.number <= figure.zones[1] &&
    (figure.allInside === undefined || figure.allInside === allInside);
  const local = amendments.find((figure) => fits(figure) && holdsIn(figure, jurisdiction));
  const found = local ?? energyCodeFigures.find(fits);
  if (!found) {
    const words = `No ${kind} limit of the ${edition} edition is known for zone ${zone} on the ${path} path.`;
    return problem('kind', 'no-limit', `${words} Give the jurisdiction's own.`);
  }
  return computed({
    ...found,
    edition,
    zone: read.value,
    remarks: remarksOn(found, Boolean(local), jurisdiction),
  });
}

// An amendment without a place is the company's own and holds everywhere.
function holdsIn(figure: CodeFigure, jurisdiction: string | undefined): boolean {
  return figure.jurisdiction === undefined || figure.jurisdiction === jurisdiction;
}

function remarksOn(figure: CodeFigure, local: boolean, jurisdiction: string | undefined): string[] {
  const { source, note } = figure;
  const place = figure.jurisdiction ? `in ${figure.jurisdiction}` : 'by the company';
  const unamended = jurisdiction
    ? `no amendment for ${jurisdiction} was given; this is the published edition`
    : 'jurisdictions amend the code; the local limit goes first';
  return [
    ...(source.confirmed ? [] : ['not confirmed: the text of the code was not seen']),
    local ? `amended ${place}` : unamended,
    ...(note ? [note] : []),
  ];
}

/**
 * Whether a reading meets a limit: `at-most` or `below`, with room for binary arithmetic only (1e-9 of it). No test
 * asked for counts as met. NaN never meets one. Never throws.
 */
export function meetsCodeLimit(
  reading: number,
  { limit, check }: Pick<CodeFigure, 'limit' | 'check'>,
): boolean {
  if (limit === null) return true;
  return check === 'below' ? reading < limit : reading <= limit * (1 + 1e-9);
}
