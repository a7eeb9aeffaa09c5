import type { RetestSummary } from '@countercheck/contracts';
import { Tag } from '../../components/marks/index.ts';

/** What a re-test came to. */
export function OutcomeTag({ outcome }: Pick<RetestSummary, 'outcome'>) {
  if (outcome === null) return <Tag>Nothing could be compared</Tag>;
  return <Tag tone={outcome === 'agrees' ? 'good' : 'bad'}>{outcome === 'agrees' ? 'Agree' : 'Differ'}</Tag>;
}
