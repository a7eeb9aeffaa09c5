import { describe, expect, it } from 'vitest';
import { testDefinition, testKeys, type TestKey } from '@countercheck/measurement';
import { compileRuleSet } from '@countercheck/rules';
import { commonPractice } from '../../../../../packages/rules/src/test/sets.ts';
import { readForm } from '../../components/reading-form/index.ts';
import { examples } from './examples.ts';
import { judge } from './judge.ts';
import { factsOf } from './made-up.ts';
import { begin } from './state.ts';

const evaluate = compileRuleSet(commonPractice);
const day = '2026-03-02';

function worked(test: TestKey) {
  const state = { ...begin(test), form: examples[test] };
  const { raw, unreadable } = readForm(testDefinition(test), state.form);
  const instrument = factsOf(state.instrument, day);
  return { state, raw, unreadable, instrument };
}

describe.each(testKeys)('the example of %s', (test) => {
  it('is complete and gives a result with a made-up instrument', () => {
    const { raw, unreadable, instrument } = worked(test);
    expect(unreadable).toEqual({});
    expect(testDefinition(test).compute(raw, instrument)).toMatchObject({ ok: true });
  });
});

const withoutReport: TestKey[] = ['supply-static', 'return-static'];
const inNoItem: TestKey[] = ['duct-leakage-rough'];
it.each(testKeys.filter((test) => !inNoItem.includes(test)))('judges the example of %s', (test) => {
  const { state, raw, instrument } = worked(test);
  const [first] = judge(state, { raw, instrument, day }, evaluate).map(({ status }) => status);
  const decided = first === 'pass' || first === 'fail';
  expect([first, decided]).toEqual([first, !withoutReport.includes(test)]);
});

it('judges by the house’s facts', () => {
  const { state, raw, instrument } = worked('envelope-leakage');
  const status = (volume: number) =>
    judge({ ...state, facts: { ...state.facts, volume } }, { raw, instrument, day }, evaluate)[0]?.status;
  expect(status(30_000)).toBe('pass');
  expect(status(9_000)).toBe('fail');
});

it('holds the reading against the installer’s figure', () => {
  const { state, raw, instrument } = worked('supply-static');
  const status = (supplyStatic: number | null) =>
    judge({ ...state, reported: { supplyStatic } }, { raw, instrument, day }, evaluate)[0]?.status;
  expect(status(0.31)).toBe('pass');
  expect(status(0.2)).toBe('fail');
  expect(status(null)).toBe('waiting');
});
