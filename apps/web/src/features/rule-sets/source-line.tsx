import type { Source } from '@countercheck/rules';
import { Tag } from '../../components/marks/index.ts';

const kinds: Record<Source['kind'], string> = {
  published: 'Published',
  'common-practice': 'Common practice',
  'from-memory': 'From memory',
  computed: 'Computed',
};

/** Where a figure comes from, and whether anybody held it against that text. */
export function SourceLine({ source }: { source: Source }) {
  return (
    <p className="small source-line">
      <Tag tone={source.confirmed ? 'good' : 'brass'}>{source.confirmed ? 'Confirmed' : 'Not confirmed'}</Tag>{' '}
      <span className="soft">
        {kinds[source.kind]}: {source.citation}
      </span>
    </p>
  );
}
