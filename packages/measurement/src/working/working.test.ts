import { describe, expect, it } from 'vitest';
import { commonPractice, fromMemory, seen } from './figure-source.ts';
import {
  aboveZero,
  count,
  finite,
  firstProblem,
  oneOf,
  share,
  statedUncertainties,
  zeroOrMore,
} from './input.ts';
import { combined, gaveWorked, worked } from './worked.ts';

describe('checks of inputs', () => {
  it('say what was given, in its unit, and what it has to be', () => {
    expect(aboveZero('a', 'The area', 0, 'ft²')).toEqual({
      path: 'a',
      code: 'not-above-zero',
      message: 'The area is 0 ft²; it must be above zero.',
    });
    expect(zeroOrMore('a', 'The flow', -1, 'cfm')?.message).toBe(
      'The flow is -1 cfm; it must be zero or more.',
    );
    expect(finite('a', 'The pressure', NaN, 'Pa')?.message).toBe(
      'The pressure is NaN Pa; it must be a number.',
    );
    expect(share('a', 'The share', 2)?.message).toBe('The share is 2; it must be above 0 and at most 1.');
    expect(count('a', 'The count', 1.5)?.message).toBe(
      'The count is 1.5; it must be a whole number, zero or more.',
    );
    expect(oneOf('a', 'The room', 'x', ['b', 'c'])?.message).toBe(
      'The room is "x", which is not known here; there is b, c.',
    );
    expect(statedUncertainties({ flow: -2 })?.message).toBe(
      'The standard uncertainty of flow is -2; it must be zero or more.',
    );
  });

  it('let pass what can be', () => {
    expect([aboveZero('', '', 1e-9, ''), zeroOrMore('', '', 0, ''), finite('', '', -1, '')]).toEqual([
      null,
      null,
      null,
    ]);
    expect([share('', '', 1), share('', '', 1e-9), count('', '', 0)]).toEqual([null, null, null]);
    expect([oneOf('', '', 'b', ['b']), statedUncertainties({ a: 0, b: null, c: undefined })]).toEqual([
      null,
      null,
    ]);
    expect(statedUncertainties(undefined)).toBeNull();
    for (const check of [aboveZero, zeroOrMore, finite])
      for (const bad of [NaN, Infinity, -Infinity]) expect(check('', '', bad, '')).not.toBeNull();
  });

  it('give the first problem', () => {
    expect(firstProblem(null, null)).toBeNull();
    const second = aboveZero('b', 'B', 0, '');
    expect(firstProblem(null, second, aboveZero('c', 'C', 0, ''))).toEqual({ ok: false, problem: second });
  });
});

describe('a worked result', () => {
  it('combines independent inputs, and knows nothing when one is not known', () => {
    expect(
      combined([
        [3, 1],
        [-2, 2],
      ]),
    ).toBe(5);
    expect(
      combined([
        [3, 1],
        [2, null],
      ]),
    ).toBeNull();
    expect(
      combined([
        [3, 1],
        [2, undefined],
      ]),
    ).toBeNull();
    expect(combined([])).toBeNull();
    expect(combined([[0, 5]])).toBe(0);
  });

  it('states the expanded uncertainty and drops a minus before zero', () => {
    const step = { label: 'x', working: '1', value: 1, unit: 'Pa' };
    const found = worked('Pa', -0, 0.5, [step]);
    expect(Object.is(found.value, 0)).toBe(true);
    expect(found).toEqual({
      value: 0,
      unit: 'Pa',
      standardUncertainty: 0.5,
      expandedUncertainty: 1,
      coverageFactor: 2,
      steps: [step],
      remarks: [],
    });
    expect(gaveWorked(found, { more: 1 })).toMatchObject({ ok: true, value: { unit: 'Pa', more: 1 } });
  });
});

describe('sources of figures', () => {
  it('are confirmed only when seen', () => {
    expect(seen('a')).toEqual({ kind: 'published', citation: 'a', confirmed: true });
    expect(fromMemory('a')).toEqual({ kind: 'from-memory', citation: 'a, from memory', confirmed: false });
    expect(commonPractice).toMatchObject({
      citation: 'common practice, no published source',
      confirmed: false,
    });
  });
});
