import type { InstrumentFacts, InstrumentKind, Problem } from '../types.ts';

/** `duct-tester` as people write it: `duct tester`. */
export function instrumentWords(kind: InstrumentKind): string {
  return kind === 'ambient-co-monitor' ? 'ambient CO monitor' : kind.replaceAll('-', ' ');
}

/**
 * What keeps an instrument from being used for a test, in words, or null.
 * Codes: `missing` (the test needs one), `wrong-instrument` (another kind). Never throws.
 */
export function instrumentProblem(
  rules: { instrumentKinds: readonly InstrumentKind[]; instrumentRequired: boolean },
  instrument: InstrumentFacts | null,
): Problem | null {
  const fitting = rules.instrumentKinds.map(instrumentWords).join(' or ');
  if (!instrument) {
    if (!rules.instrumentRequired) return null;
    return {
      path: 'instrument',
      code: 'missing',
      message: `No instrument was chosen. Choose the ${fitting} used.`,
    };
  }
  if (rules.instrumentKinds.includes(instrument.kind)) return null;
  return {
    path: 'instrument',
    code: 'wrong-instrument',
    message: `A ${instrumentWords(instrument.kind)} (${instrument.label}) cannot do this test. Use a ${fitting}.`,
  };
}
