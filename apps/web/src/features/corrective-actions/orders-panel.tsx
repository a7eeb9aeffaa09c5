import type { CorrectiveAction } from '@countercheck/contracts';
import { Link } from '@tanstack/react-router';
import { Tag } from '../../components/marks/index.ts';
import { DateText, Panel } from '../../components/page/index.ts';
import { RowsTable } from '../../components/table/index.ts';

type Order = CorrectiveAction['orders'][number];

const kinds = {
  'file-review': { words: 'File review', path: 'file-reviews' },
  'field-retest': { words: 'Re-test', path: 'retests' },
};
const states: Record<Order['state'], string> = {
  ...{ open: 'Open', ordered: 'Ordered', booked: 'Booked', done: 'Done' },
  ...{ appealed: 'Appealed', withdrawn: 'Withdrawn' },
};
const outcomes = { clean: 'Clean', findings: 'Findings', agrees: 'Agrees', differs: 'Differs' };
const toneOf = ({ outcome }: Order) =>
  outcome === null ? 'brass' : outcome === 'clean' || outcome === 'agrees' ? 'good' : 'bad';

/** What the raised shares of an action have ordered. */
export function OrdersPanel({ orders }: { orders: Order[] }) {
  if (orders.length === 0) return null;
  return (
    <Panel title="Ordered on account of it" flush>
      <RowsTable
        caption="Ordered on account of it"
        rows={orders}
        keyOf={({ id }) => id}
        columns={[
          {
            title: 'House',
            head: true,
            cell: (row) => <Link to={`/${kinds[row.kind].path}/${row.id}`}>{row.address}</Link>,
          },
          { title: 'What', cell: (row) => kinds[row.kind].words },
          { title: 'Due', cell: (row) => <DateText date={row.dueOn} /> },
          {
            title: 'State',
            cell: (row) => (
              <Tag tone={toneOf(row)}>{row.outcome === null ? states[row.state] : outcomes[row.outcome]}</Tag>
            ),
          },
        ]}
      />
    </Panel>
  );
}
