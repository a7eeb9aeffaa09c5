import { quantities, type QuantityKind, type UnitSystem } from '@countercheck/measurement';
import type { Comparison, ItemVerdict, Take } from '../types.ts';
import { agreementWords } from './agreement.ts';
import { aheadWords } from './change.ts';
import { wordsIn } from './comparison.ts';
import { sayExact, withUnit } from './numbers.ts';
import { targetWords } from './take.ts';

/** The same thing said in stored units and in another system. */
type Pair = readonly [kept: string, said: string];

const kinds = Object.keys(quantities) as QuantityKind[];
const numeric = (comparison: Comparison) => comparison.low !== null || comparison.high !== null;

/** A comparison with its words in a unit system, from its numbers. */
function comparisonIn(comparison: Comparison, system: UnitSystem): Comparison {
  const { agreement, quantity } = comparison;
  return {
    ...comparison,
    ...wordsIn(comparison, system),
    agreement: agreement && { ...agreement, words: agreementWords(agreement, quantity, system) },
  };
}

/** What a passing reading would have to leave, as `wouldChange` says it. */
function leaves(comparison: Comparison, system: UnitSystem): string[] {
  const { label, quantity, low, high } = comparison;
  const room = comparison.guardBand ?? 0;
  const say = (bound: number) => withUnit(sayExact(bound, quantity, system), quantity, system);
  const above = high === null ? [] : [`${label} above ${say(high - room)}`];
  return low === null ? above : [...above, `${label} below ${say(low + room)}`];
}

function ofComparison(comparison: Comparison, system: UnitSystem): Pair[] {
  const { label, quantity, ahead } = comparison;
  if (ahead) {
    const said = (into: UnitSystem) => aheadWords(label, quantity, ahead, into);
    return [[said('us'), said(system)]];
  }
  if (!numeric(comparison)) return [];
  const said = wordsIn(comparison, system);
  const left = leaves(comparison, 'us').map((kept, i): Pair => [kept, leaves(comparison, system)[i] ?? kept]);
  return [
    [comparison.words, said.words],
    ...(comparison.needed === null || said.needed === null
      ? []
      : [[comparison.needed, said.needed] as const]),
    ...left,
  ];
}

function ofTake({ reading }: Take, system: UnitSystem): Pair[] {
  const kind = reading && kinds.find((each) => quantities[each].unit === reading.unit);
  if (!reading || !kind) return [];
  const target = (into: UnitSystem) => targetWords(reading, kind, reading.now ?? null, into);
  return [[target('us'), target(system)]];
}

const escaped = (text: string) => text.replace(/[$()*+.?[\\\]^{|}]/g, String.raw`\$&`);
const capital = (text: string) => text.charAt(0).toUpperCase() + text.slice(1);

/** Puts what is said in the place of what was kept, wherever it stands in a text, the longest first. */
function replacer(pairs: readonly Pair[]): (text: string) => string {
  const changed = pairs.filter(([kept, said]) => kept !== said && kept !== '');
  // a sentence may begin with it
  const all = new Map(
    changed.flatMap(([kept, said]) => [[kept, said] as const, [capital(kept), capital(said)]]),
  );
  if (all.size === 0) return (text) => text;
  const found = [...all.keys()].sort((a, b) => b.length - a.length).map(escaped);
  // "156 cfm" does not hold "56 cfm"
  const pattern = new RegExp(String.raw`(?<![\w.,-])(?:${found.join('|')})`, 'g');
  return (text) => text.replace(pattern, (kept) => all.get(kept) ?? kept);
}

/**
 * A verdict with its words in a unit system: reason, what is needed, what it would take, every comparison. Rendered
 * from the numbers in its trace, so that a verdict that was kept years ago is told in the reader's units and its own
 * text stays as it was; what an old trace does not hold stays in the words that were kept. A figure is rounded
 * towards passing and a reading never across its limit, in any system. Pure; never throws.
 */
export function verdictIn(verdict: ItemVerdict, system: UnitSystem): ItemVerdict {
  if (system === 'us') return verdict;
  const { trace, headline, takes } = verdict;
  const ways = [...trace.options, ...trace.exemptions];
  const compared = [
    ...ways.flatMap(({ comparisons }) => comparisons),
    ...trace.applies.flatMap(({ comparison }) => comparison ?? []),
    ...(headline ? [headline] : []),
  ];
  const say = replacer([
    ...compared.flatMap((each) => ofComparison(each, system)),
    ...(takes ?? []).flatMap((each) => ofTake(each, system)),
  ]);
  const inUnits = <Way extends { comparisons: Comparison[] }>(way: Way): Way => ({
    ...way,
    comparisons: way.comparisons.map((each) => comparisonIn(each, system)),
  });
  return {
    ...verdict,
    reason: say(verdict.reason),
    headline: headline && comparisonIn(headline, system),
    takes: takes?.map((each) => ({ ...each, words: say(each.words) })),
    trace: {
      ...trace,
      applies: trace.applies.map((each) => ({ ...each, words: say(each.words) })),
      options: trace.options.map(inUnits),
      exemptions: trace.exemptions.map(inUnits),
      wouldChange: trace.wouldChange.map(say),
    },
  };
}
