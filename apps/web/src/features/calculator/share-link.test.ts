import fc from 'fast-check';
import { deflateRawSync } from 'node:zlib';
import { describe, expect, it } from 'vitest';
import { testDefinition, testKeys } from '@countercheck/measurement';
import { examples } from './examples.ts';
import { isLink } from './is-link.ts';
import { packState, unpackState } from './share-link.ts';
import { begin, type CalculatorState } from './state.ts';

const key = fc.stringMatching(/^[a-z][a-zA-Z]{0,20}$/).filter((each) => !(each in {}));
const typed = fc.dictionary(
  key,
  fc.record({ text: fc.string({ maxLength: 40 }), system: fc.constantFrom('us' as const, 'si' as const) }),
  { noNullPrototype: true, maxKeys: 4 },
);
const choices = fc.dictionary(key, fc.string({ maxLength: 80 }), { noNullPrototype: true, maxKeys: 3 });
const number = fc.option(fc.double({ min: -1e9, max: 1e9, noNaN: true }).map((each) => each + 0));
const states: fc.Arbitrary<CalculatorState> = fc
  .record({
    test: fc.constantFrom(...testKeys),
    typed,
    choices,
    rows: fc.array(fc.record({ label: fc.string({ maxLength: 80 }), typed, choices }), { maxLength: 6 }),
    accuracy: number,
    floorArea: number,
    reported: fc.dictionary(key, number, { noNullPrototype: true, maxKeys: 3 }),
    ruleSet: fc.option(fc.string({ maxLength: 120 })),
  })
  .map(({ test, typed, choices, rows, accuracy, floorArea, reported, ruleSet }) => {
    const state = begin(test);
    return {
      ...state,
      form: { typed, choices, rows: rows.map((row) => ({ ...row, key: 'k' })), confirmations: { ok: true } },
      instrument: { ...state.instrument, accuracyPercent: accuracy },
      facts: { ...state.facts, floorArea },
      reported,
      ruleSet,
    };
  });

describe('a share link', () => {
  it('gives back what went in', async () => {
    await fc.assert(
      fc.asyncProperty(states, async (state) => {
        const link = await packState(state);
        expect(link).toMatch(/^1\.[\w-]+$/);
        expect(isLink(link)).toBe(true);
        expect(await unpackState(link, () => 'k')).toEqual(state);
      }),
      { numRuns: 60 },
    );
  });

  it('is told from other places on a page', () => {
    expect(['', 'content', '1'].filter(isLink)).toEqual([]);
  });

  it('stays short enough for a message', async () => {
    for (const test of testKeys) {
      const link = await packState({ ...begin(test), form: examples[test] });
      expect(link.length).toBeLessThan(1500);
    }
  });

  it('refuses what this page did not write, without complaint', async () => {
    await fc.assert(
      fc.asyncProperty(fc.string(), async (junk) => {
        expect(await unpackState(junk)).toBeNull();
        expect(await unpackState(`1.${junk}`)).toBeNull();
      }),
    );
    const cut = (await packState(begin('spillage'))).slice(0, -6);
    expect(await unpackState(cut)).toBeNull();
    expect(await unpackState('')).toBeNull();
  });

  const written = (content: unknown) => `1.${deflateRawSync(JSON.stringify(content)).toString('base64url')}`;

  it('refuses a link that was tampered with', async () => {
    const { form, ...rest } = begin('bath-exhaust');
    const state = { ...rest, form };
    expect(await unpackState(written(state))).not.toBeNull();
    expect(await unpackState(written({ ...state, test: 'unheard-of' }))).toBeNull();
    expect(await unpackState(written({ ...state, facts: { ...state.facts, volume: '1' } }))).toBeNull();
    const stranger = { ...state.instrument, kind: 'stopwatch' };
    expect(testDefinition('bath-exhaust').instrumentKinds).not.toContain('stopwatch');
    expect(await unpackState(written({ ...state, instrument: stranger }))).toBeNull();
  });

  it('does not unpack a bomb', async () => {
    expect(await unpackState(written({ ...begin('spillage'), ruleSet: ' '.repeat(3_000_000) }))).toBeNull();
  });
});
