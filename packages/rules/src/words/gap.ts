import type { Gap, GapKind } from '../compile/quantity.ts';

const sentences: Record<GapKind, (label: string, detail: string | null) => string> = {
  'no-fact': (label) => `not entered in the house’s file: ${label}`,
  'not-reported': (label) => `the installer has not reported the ${label}`,
  // must not tell the figure, nor on which side of it the reading lies
  hidden: (label) => `the reported ${label} stays hidden until this reading is signed`,
  'not-positive': (label, detail) => `the reported ${label} is ${detail}; ask the installer`,
  'not-measured': (label) => `not yet measured: ${label}`,
  'not-given': (label) => `the reading does not give the ${label}`,
  'does-not-count': (label, detail) => detail ?? `the reading of the ${label} does not count`,
  'no-limit': (_label, detail) => `the rule set has no limit for climate zone ${detail}`,
};

/** Why a quantity is missing, as part of a sentence without its full stop. */
export function gapWords(gap: Gap): string {
  return sentences[gap.kind](gap.entry.label, gap.detail).replace(/\.$/, '');
}
