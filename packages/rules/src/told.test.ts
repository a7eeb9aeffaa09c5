import { describe, expect, it } from 'vitest';
import { casesOf } from './test/cases.ts';
import { ownItems, shippedVersions } from './test/sets.ts';
import { toldOf } from './test/told.ts';

// After a wanted change of words: npx vitest run --project unit packages/rules/src/told.test.ts -u, and read the diff.
describe.each(shippedVersions)('the cases of $set.key $set.version', (version) => {
  const { set } = version;
  const own = ownItems(version).map(({ item }) => item);
  it.each(casesOf(version).filter(({ item }) => own.includes(item)))(
    'of $item are told in the words and with the numbers that were read and kept',
    async ({ item, cases }) => {
      const kept = `../cases/${set.key}/${set.version}/told/${item}.txt`;
      await expect(toldOf(set, item, cases)).toMatchFileSnapshot(kept);
    },
  );
});
