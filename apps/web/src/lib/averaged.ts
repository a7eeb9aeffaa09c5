import type { Reading } from '@countercheck/contracts';

/** Over how many seconds a reading's numbers were averaged, by path as in `entered`; "" = all of it. */
export function averagedSeconds(conditions: Reading['conditions']): Record<string, number> {
  const said = conditions['averagedSeconds'];
  if (typeof said !== 'object' || said === null) return {};
  return Object.fromEntries(
    Object.entries(said).filter((each): each is [string, number] => typeof each[1] === 'number'),
  );
}
