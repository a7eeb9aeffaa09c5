import { houses, type HouseImport } from '@countercheck/contracts';
import { Link } from '@tanstack/react-router';
import { Moment, Panel } from '../../../components/page/index.ts';
import { RunBar, RunTag, whileAtWork } from '../../../components/runs/index.ts';
import { Asked, Empty } from '../../../components/states/index.ts';
import { RowsTable, type Column } from '../../../components/table/index.ts';
import { useRoute } from '../../../lib/query.ts';

const newest = 10;

const columns: Column<HouseImport>[] = [
  {
    title: 'Builder',
    head: true,
    cell: (row) => (
      <Link to="/houses" search={{ builderId: row.builder.id }}>
        {row.builder.name}
      </Link>
    ),
  },
  { title: 'Houses', figure: true, cell: (row) => row.houses.toLocaleString('en-US') },
  { title: 'Loaded', cell: (row) => <Moment at={row.askedAt} /> },
  { title: 'By', cell: (row) => row.askedBy },
  {
    title: 'Verdicts',
    cell: (row) => (
      <div className="stack">
        <RunTag run={row} />
        {row.state !== 'done' && <RunBar run={row} what="houses judged" />}
        {row.problem && <span>{row.problem}</span>}
      </div>
    ),
  },
];

/** The files loaded last. Their houses are judged in the background; leaving the page stops nothing. */
export function ImportsPanel() {
  const query = useRoute(houses.imports, { query: { pageSize: newest } }, { refetchInterval: whileAtWork });
  return (
    <Panel title="Files loaded" flush>
      <Asked query={query}>
        {({ items }) =>
          items.length === 0 ? (
            <Empty title="No file was loaded yet" />
          ) : (
            <RowsTable caption="Files loaded" columns={columns} rows={items} keyOf={(row) => row.id} />
          )
        }
      </Asked>
    </Panel>
  );
}
