import { expect, it } from 'vitest';
import { found } from './found.ts';

const items = [
  { id: 'a', name: 'Ada', active: true },
  { id: 'b', name: 'Bo', active: false },
];
const active = ({ id, name, active: offered }: (typeof items)[number]) =>
  offered ? { value: id, label: name } : null;

it('gives what was found as options, and says that nothing was found only once that is known', () => {
  expect(found({ data: { items }, isError: false }, active)).toEqual({
    options: [{ value: 'a', label: 'Ada' }],
    none: 'Nothing found',
  });
  expect(found({ data: undefined, isError: false }, active)).toEqual({ options: [], none: 'Looking…' });
});

it('says that the list cannot be loaded, and does not offer what was found for other words', () => {
  expect(found({ data: { items }, isError: true }, active)).toEqual({
    options: [],
    none: 'The list cannot be loaded now; try again',
  });
});
