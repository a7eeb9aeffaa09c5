import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { quantities } from '../quantities.ts';
import { goodReadings, outcomeOf } from '../testing/readings.ts';
import {
  type InstrumentFacts,
  instrumentKinds,
  type RawReading,
  type TestDefinition,
  testKeys,
} from '../types.ts';
import { testDefinition, testDefinitions } from './registry.ts';

const all = testKeys.map((key): [string, TestDefinition] => [key, testDefinition(key)]);

it('has one definition for each of the sixteen keys', () => {
  expect(Object.keys(testDefinitions).sort()).toEqual([...testKeys].sort());
  for (const [key, test] of all) expect(test.key).toBe(key);
});

describe.each(all)('%s', (_key, test) => {
  const fields = [...test.fields, ...(test.rows?.fields ?? [])];
  const choices = [...test.choices, ...(test.rows?.choices ?? [])];

  it('speaks in words everywhere', () => {
    const words = [
      ...[test.title, ...fields, ...choices, ...test.confirmations, ...test.gives].map((part) =>
        typeof part === 'string' ? part : part.label,
      ),
      ...choices.flatMap(({ options }) => options.map(({ label }) => label)),
      ...(test.rows ? [test.rows.label, test.rows.rowLabel] : []),
    ];
    for (const word of words) expect(word).toMatch(/^[A-Z]/);
    const sentences = [
      test.how,
      ...test.cautions,
      ...[...fields, ...choices].map(({ help }) => help ?? 'None.'),
    ];
    for (const sentence of sentences) expect(sentence).toMatch(/^[A-Z].*\.$/);
    expect(test.cautions.join(' ')).toMatch(/local codes/i);
  });

  it('has keys that are told apart, and plausible limits the right way round', () => {
    for (const list of [fields, choices, test.confirmations, test.gives]) {
      const keys = list.map(({ key }) => key);
      expect(new Set(keys).size).toBe(keys.length);
      for (const key of keys) expect(key).toMatch(/^[a-z][A-Za-z0-9]*$/);
    }
    for (const { min, max, signed } of fields) {
      expect(min).toBeLessThan(max);
      expect(signed).toBe(min < 0);
    }
  });

  it('gives from its good reading only what it says it gives, in the stored units', () => {
    const outcome = outcomeOf(test.key);
    expect(outcome).toMatchObject({ ok: true });
    if (!outcome.ok) return;
    expect(outcome.values.length).toBeGreaterThan(0);
    for (const { key, label, quantity, unit, value } of outcome.values) {
      expect(test.gives).toContainEqual({ key, label, quantity });
      expect(unit).toBe(quantities[quantity].unit);
      expect(Number.isFinite(value)).toBe(true);
      expect(Object.is(value, -0)).toBe(false);
    }
  });

  it('refuses every kind of instrument that it does not name', () => {
    for (const kind of instrumentKinds.filter((candidate) => !test.instrumentKinds.includes(candidate))) {
      const { instrument } = goodReadings[test.key];
      const outcome = outcomeOf(test.key, undefined, { ...instrument, kind });
      expect(outcome).toMatchObject({ ok: false, problems: [{ code: 'wrong-instrument' }] });
    }
  });

  it('refuses any one number of its good reading when it is absurd, and says which', () => {
    const raw = (change: (reading: RawReading) => void) => {
      const reading = structuredClone(goodReadings[test.key].part) as RawReading;
      reading.values ??= {};
      change(reading);
      return outcomeOf(test.key, reading);
    };
    const { part } = goodReadings[test.key];
    for (const absurd of [1e9, -1e9, NaN, Infinity, 'x' as unknown as number]) {
      for (const key of Object.keys(part.values ?? {})) {
        const outcome = raw((reading) => (reading.values[key] = absurd));
        expect(outcome).toMatchObject({ ok: false, problems: [{ path: `values.${key}` }] });
      }
      for (const key of Object.keys(part.rows?.[0]?.values ?? {})) {
        const outcome = raw((reading) => (reading.rows[0]!.values[key] = absurd));
        expect(outcome).toMatchObject({ ok: false, problems: [{ path: `rows.0.values.${key}` }] });
      }
    }
  });

  it('never throws, whatever comes in, and always says why', () => {
    const number = fc.oneof(fc.double(), fc.integer(), fc.constantFrom(0, -0, 25, 50));
    const names = fc.constantFrom(
      '__proto__',
      ...fields.map(({ key }) => key),
      ...choices.map(({ key }) => key),
    );
    const values = fc.dictionary(names, fc.oneof(number, fc.anything()));
    const texts = fc.dictionary(
      names,
      fc.oneof(fc.string(), fc.constantFrom('small', 'full', 'grille', 'cold')),
    );
    const row = fc.oneof(fc.anything(), fc.record({ label: fc.string(), values, choices: texts }));
    const confirmations = fc.constant(Object.fromEntries(test.confirmations.map(({ key }) => [key, true])));
    const shaped = fc.record({
      values,
      choices: texts,
      rows: fc.array(row, { maxLength: 6 }),
      confirmations,
    });
    const { instrument } = goodReadings[test.key];
    fc.assert(
      fc.property(
        fc.oneof(shaped, fc.anything()),
        fc.oneof(fc.constant(instrument), fc.constant(null), fc.anything()),
        (raw, tool) => {
          const outcome = test.compute(raw as RawReading, tool as InstrumentFacts | null);
          if (outcome.ok) expect(outcome.values.every(({ value }) => Number.isFinite(value))).toBe(true);
          else {
            expect(outcome.problems.length).toBeGreaterThan(0);
            for (const { code, message } of outcome.problems) {
              expect(code).not.toBe('');
              expect(message).toMatch(/^[A-Z].*\.$/s);
            }
          }
        },
      ),
      { numRuns: 300 },
    );
  });
});
