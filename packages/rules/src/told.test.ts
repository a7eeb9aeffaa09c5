import { describe, expect, it } from 'vitest';
import { casesOf } from './test/cases.ts';
import { shippedSets } from './test/sets.ts';
import { toldOf } from './test/told.ts';

// After a wanted change of words: npx vitest run --project unit packages/rules/src/told.test.ts -u, and read the diff.
describe.each(shippedSets.map((set) => [set.key, set] as const))('the cases of %s', (key, set) => {
  it.each(casesOf(key).map(({ item, cases }) => [item, cases] as const))(
    'of %s are told in the words and with the numbers that were read and kept',
    async (item, cases) => {
      await expect(toldOf(set, item, cases)).toMatchFileSnapshot(`../cases/${key}/told/${item}.txt`);
    },
  );
});
