import { batches, type BatchRulesRow } from '@countercheck/contracts';
import { Tag } from '../../components/marks/index.ts';
import { Panel } from '../../components/page/index.ts';
import { Asked } from '../../components/states/index.ts';
import { RowsTable, type Column } from '../../components/table/index.ts';
import { useRoute } from '../../lib/query.ts';
import './batches.css';

type Rule = BatchRulesRow['rules'][number];

const shortMarks: Record<string, string> = {
  seen: 'Published',
  'common practice, no published source': 'Common practice',
};

const columns: Column<Rule>[] = [
  { title: 'Rule', head: true, cell: (row) => row.words },
  {
    title: 'Mark',
    cell: (row) => (
      <Tag tone={row.mark === 'seen' ? 'good' : 'plain'}>{shortMarks[row.mark] ?? row.mark}</Tag>
    ),
  },
  {
    title: 'Source',
    cell: (row) => <span className="small rule-source">{row.source || 'no published source'}</span>,
  },
];

export function RulesTable({ rules }: { rules: BatchRulesRow }) {
  return (
    <RowsTable
      caption={`Rules: ${rules.title}`}
      columns={columns}
      rows={rules.rules}
      keyOf={({ name }) => name}
    />
  );
}

/** The rule sets with their sources. */
export function RulesPanel() {
  const query = useRoute(batches.rules, {});
  return (
    <Asked query={query}>
      {(sets) =>
        sets.map((rules) => (
          <Panel key={rules.key} title={rules.title} flush>
            <RulesTable rules={rules} />
          </Panel>
        ))
      }
    </Asked>
  );
}
