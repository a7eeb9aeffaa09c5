import { describe, expect, it } from 'vitest';
import { problemsByPath, serverPaths } from './problems.ts';

const missing = { path: 'values.flow', code: 'missing', message: 'Flow is missing.' };
const wrongSign = { path: 'values.pressure', code: 'wrong-sign', message: 'The ports look swapped.' };

describe('problemsByPath', () => {
  it('says at once what cannot be right, and what is missing only after an attempt', () => {
    expect(problemsByPath([missing, wrongSign], {}, false)).toEqual({
      'values.pressure': 'The ports look swapped.',
    });
    expect(Object.keys(problemsByPath([missing, wrongSign], {}, true))).toEqual([
      'values.flow',
      'values.pressure',
    ]);
  });

  it('leaves what is no number to the field, which does not call it missing', () => {
    expect(problemsByPath([missing], { 'values.flow': 'not a number' }, true)).toEqual({});
  });
});

describe('serverPaths', () => {
  it('finds the form’s field for the server’s path', () => {
    expect(serverPaths({ 'raw.values.flow': 'no', supersedeReason: 'why' })).toEqual({
      'values.flow': 'no',
      supersedeReason: 'why',
    });
  });
});
