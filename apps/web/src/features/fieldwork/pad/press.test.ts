import { parseEntry } from '@countercheck/measurement';
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { press, type PadKey } from './press.ts';

const typed = (...keys: PadKey[]) => keys.reduce(press, '');

it('builds a number key by key, with its sign wherever that is pressed', () => {
  expect(typed('0', '.', '0', '9')).toBe('0.09');
  expect(typed('.', '5', 'sign')).toBe('-0.5');
  expect(typed('1', 'sign', '2', 'sign')).toBe('12');
  expect(typed('sign', '.', '1')).toBe('-0.1');
  expect(typed('4', '2', 'back')).toBe('4');
});

it('takes no second point, no leading zeros, and no end of digits', () => {
  expect(typed('1', '.', '2', '.', '3')).toBe('1.23');
  expect(typed('0', '0', '7')).toBe('7');
  expect(typed(...Array.from({ length: 20 }, () => '1' as const))).toHaveLength(15);
});

it('never makes what is neither empty, a lone sign nor a number', () => {
  const keys: PadKey[] = ['0', '1', '5', '9', '.', 'sign', 'back'];
  fc.assert(
    fc.property(fc.array(fc.constantFrom(...keys), { maxLength: 18 }), (pressed) => {
      const text = typed(...pressed);
      if (text === '' || text === '-') return;
      // A sign in front of fifteen digits is one too long, and the entry says so in words.
      if (text.length <= 15) expect(parseEntry('pressureDifference', text, 'us').problem).toBeNull();
    }),
  );
});
