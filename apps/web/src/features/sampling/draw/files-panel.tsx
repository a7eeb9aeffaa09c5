import { sampling, type DrawMember } from '@countercheck/contracts';
import { Link } from '@tanstack/react-router';
import { Panel } from '../../../components/page/index.ts';
import { DataTable, type Column } from '../../../components/table/index.ts';
import { useListSearch } from '../../../lib/list-search.ts';
import { useRoute } from '../../../lib/query.ts';
import { percentText, workText } from '../words.ts';

const columns: Column<DrawMember>[] = [
  {
    title: 'House',
    head: true,
    cell: (row) => (
      <span>
        <Link to={`/houses/${row.houseId}`}>{row.address}</Link>
        <span className="small soft">
          {' '}
          lot {row.lot}, {row.community}
        </span>
      </span>
    ),
  },
  { title: 'Rater', cell: (row) => row.rater },
  { title: 'Builder', cell: (row) => row.builder },
  { title: 'Place in the list', figure: true, cell: (row) => row.position.toLocaleString('en-US') },
  { title: 'Chance', figure: true, cell: (row) => percentText(row.chance) },
  { title: 'Work', cell: (row) => (row.work ? workText(row.work) : 'Not ordered') },
];

export function FilesPanel({ id }: { id: string }) {
  const { page } = useListSearch();
  const query = useRoute(sampling.members, { params: { id }, query: { page } }, { keepPrevious: true });
  return (
    <Panel title="Files drawn" flush>
      <DataTable
        caption="Files drawn"
        columns={columns}
        keyOf={(row) => String(row.position)}
        query={query}
        empty="Nothing was drawn"
      />
    </Panel>
  );
}
