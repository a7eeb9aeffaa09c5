import { type InstrumentFacts, type InstrumentKind, instrumentKinds, type Problem } from '../types.ts';
import { bag, list } from './plain.ts';

/** `duct-tester` as people write it: `duct tester`. */
export function instrumentWords(kind: InstrumentKind): string {
  return kind === 'ambient-co-monitor' ? 'ambient CO monitor' : kind.replaceAll('-', ' ');
}

/**
 * What keeps an instrument from being used for a test, in words, or null.
 * Codes: `missing` (the test needs one), `bad-instrument` (its record cannot be read), `wrong-instrument`
 * (another kind). Never throws.
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
  if (!isInstrument(instrument)) {
    const message = `The instrument’s record cannot be read. Correct it in the list of instruments, or choose the ${fitting} used.`;
    return { path: 'instrument', code: 'bad-instrument', message };
  }
  if (rules.instrumentKinds.includes(instrument.kind)) return null;
  return {
    path: 'instrument',
    code: 'wrong-instrument',
    message: `A ${instrumentWords(instrument.kind)} (${instrument.label}) cannot do this test. Use a ${fitting}.`,
  };
}

/**
 * Whether a value has the shape of an instrument's facts, ranges included, so that nothing later stumbles over
 * a record that was stored or sent incomplete. Never throws.
 */
export function isInstrument(value: unknown): value is InstrumentFacts {
  const { kind, label, accuracyPercent, accuracyAbsolute, ranges } = bag(value);
  const known: readonly unknown[] = instrumentKinds;
  return (
    known.includes(kind) &&
    typeof label === 'string' &&
    typeof accuracyPercent === 'number' &&
    typeof accuracyAbsolute === 'number' &&
    Array.isArray(ranges) &&
    list(ranges).every(isRange)
  );
}

function isRange(value: unknown): boolean {
  const { range, c, n, minPa, maxPa, table } = bag(value);
  // What is read from a table needs no coefficients.
  const read = table === undefined || table === null ? [c, n] : tableNumbers(table);
  return typeof range === 'string' && [...read, minPa, maxPa].every((part) => typeof part === 'number');
}

function tableNumbers(table: unknown): unknown[] {
  if (!Array.isArray(table)) return [null];
  return list(table).flatMap((row) => [bag(row)['pressure'], bag(row)['flow']]);
}
