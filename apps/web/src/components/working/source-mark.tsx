import type { Source } from '@countercheck/rules';
import { Tag } from '../marks/index.ts';

const words: Record<Source['kind'], string> = {
  published: 'Published',
  'common-practice': 'Common practice, no published source',
  'from-memory': 'From memory',
  computed: 'Computed',
};

/** Where a limit comes from and how sure the company is of it. */
export function SourceMark({ source }: { source: Source }) {
  return (
    <p className="source">
      <Tag tone={source.kind === 'published' ? 'good' : 'plain'}>{words[source.kind]}</Tag>
      {!source.confirmed && <Tag tone="brass">Not confirmed</Tag>}
      {source.citation !== words[source.kind].toLowerCase() && <span>{source.citation}</span>}
    </p>
  );
}
