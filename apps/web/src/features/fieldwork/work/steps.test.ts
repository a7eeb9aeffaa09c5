import { testDefinition, testKeys } from '@countercheck/measurement';
import { describe, expect, it } from 'vitest';
import { emptyDraft, type Draft } from '../entry/draft.ts';
import { nextStep, stepsOf, stepText } from './steps.ts';

const draftOf = (key: (typeof testKeys)[number], more: Partial<Draft> = {}): Draft => ({
  ...emptyDraft(testDefinition(key)),
  ...more,
});
const keys = (key: (typeof testKeys)[number], draft = draftOf(key)) =>
  stepsOf(testDefinition(key), draft, null).map((step) => step.key);

describe('the steps of a test', () => {
  it('name every field, choice, instrument, row and set-up of each test once', () => {
    for (const key of testKeys) {
      const test = testDefinition(key);
      const steps = keys(key);
      expect(new Set(steps).size).toBe(steps.length);
      for (const field of test.fields) expect(steps).toContain(`values.${field.key}`);
      for (const choice of test.choices) expect(steps).toContain(`choices.${choice.key}`);
      for (let row = 0; row < (test.rows?.min ?? 0); row += 1) {
        for (const field of test.rows!.fields) expect(steps).toContain(`rows.${row}.values.${field.key}`);
        expect(steps).toContain(`rows.${row}.label`);
      }
      expect(steps.includes('confirmations')).toBe(test.confirmations.length > 0);
      expect(steps.at(-1)).toBe('note');
    }
  });

  it('lead to what is needed and still empty, turning round at the end', () => {
    const test = testDefinition('supply-static');
    const ticked = Object.fromEntries(test.confirmations.map(({ key }) => [key, true]));
    const draft = draftOf('supply-static', { confirmations: ticked });
    const steps = stepsOf(test, draft, null);
    expect(nextStep(steps, 'confirmations', test, draft)?.key).toBe('instrument');
    const named = { ...draft, instrumentId: 'one' };
    expect(nextStep(steps, 'instrument', test, named)?.key).toBe('values.pressure');
    const typed = { ...named, typed: { pressure: { text: '0.09', system: 'us' as const } } };
    expect(nextStep(steps, 'values.pressure', test, typed)).toBeNull();
    const unticked = { ...typed, confirmations: {} };
    expect(nextStep(steps, 'values.pressure', test, unticked)?.key).toBe('confirmations');
  });

  it('show what is there: numbers as typed with their unit, choices in words', () => {
    const test = testDefinition('supply-static');
    const draft = draftOf('supply-static', { typed: { pressure: { text: '0.090', system: 'us' } } });
    const text = (kind: string) =>
      stepText(
        stepsOf(test, draft, null).find((each) => each.kind === kind)!,
        test,
        draft,
        null,
        'us',
      );
    expect(text('number')).toBe('0.090 in. w.c.');
    expect(text('set-up')).toBe(`0 of ${test.confirmations.length}`);
    expect(text('instrument')).toBe('');
  });
});
