import { describe, expect, it } from 'vitest';
import { emptyReturn, readReturn, toReturnBody } from './findings-draft.ts';

describe('the noted findings', () => {
  it('name item and part apart, or neither', () => {
    const finding = { key: 'k', severity: 'minor' as const, text: 'Ring?' };
    const body = toReturnBody({
      note: '',
      findings: [
        { ...finding, about: 'duct-leakage/house' },
        { ...finding, about: '' },
      ],
    });
    expect(body.findings.map(({ item, subjectId }) => [item, subjectId])).toEqual([
      ['duct-leakage', 'house'],
      [null, null],
    ]);
  });
  it('begin empty where what was kept cannot be read', () => {
    expect(readReturn(null)).toBe(emptyReturn);
    expect(readReturn('{')).toBe(emptyReturn);
    expect(readReturn('{"note":1}')).toBe(emptyReturn);
  });
});
