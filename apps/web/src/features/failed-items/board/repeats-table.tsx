import { failedBoard, type RepeatFailure } from '@countercheck/contracts';
import { Link } from '@tanstack/react-router';
import { Moment } from '../../../components/page/index.ts';
import { DataTable, type Column } from '../../../components/table/index.ts';
import { useListSearch } from '../../../lib/list-search.ts';
import { useRoute } from '../../../lib/query.ts';
import type { BoardFilter } from './filter.ts';

const columns: Column<RepeatFailure>[] = [
  { title: 'Item', head: true, cell: ({ title }) => title },
  {
    title: 'Builder',
    cell: ({ builder }) => (
      <Link to="/failed-items" search={{ builderId: builder.id }}>
        {builder.name}
      </Link>
    ),
  },
  { title: 'Plan', cell: ({ plan }) => plan?.name ?? 'no plan' },
  { title: 'Houses', figure: true, cell: ({ houses, ofHouses }) => `${houses} of ${ofHouses}` },
  { title: 'Times', figure: true, cell: ({ times }) => times },
  { title: 'Last', cell: ({ lastAt }) => <Moment at={lastAt} day /> },
];

/** What fails in house after house of one plan: rather the plan's fault than one crew's bad day. */
export function RepeatsTable({ filter }: { filter: BoardFilter }) {
  const { page } = useListSearch();
  const query = useRoute(failedBoard.repeats, { query: { ...filter, page } }, { keepPrevious: true });
  return (
    <DataTable
      caption="The same item failing in several houses of one plan"
      columns={columns}
      keyOf={({ builder, plan, item }) => `${builder.id}/${plan?.id}/${item}`}
      query={query}
      empty="No item failed in more than one house of a plan"
    />
  );
}
