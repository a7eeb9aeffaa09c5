import type { ReplayResult } from '@countercheck/contracts';

const counted = (count: number, one: string, many: string) =>
  `${count.toLocaleString('en-US')} ${count === 1 ? one : many}`;

const houses = (count: number) => counted(count, 'house', 'houses');

/** More or fewer than there were, e.g. "+12". */
export const signed = (count: number) =>
  count > 0 ? `+${count.toLocaleString('en-US')}` : count < 0 ? `−${(-count).toLocaleString('en-US')}` : '0';

/** The question of money in one sentence. */
export function reinspectionWords({ more, fewer }: Pick<ReplayResult, 'more' | 'fewer'>): string {
  const difference = more - fewer;
  if (more === 0 && fewer === 0) return 'As many reinspections as there were, at the same houses.';
  const both = `${houses(more)} more and ${houses(fewer)} fewer would need one.`;
  if (difference === 0) return `As many reinspections as there were: ${both}`;
  const size = counted(Math.abs(difference), 'reinspection', 'reinspections');
  return `${size} ${difference > 0 ? 'more' : 'fewer'}: ${both}`;
}
