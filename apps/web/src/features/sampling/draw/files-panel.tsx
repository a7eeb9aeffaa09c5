import { sampling, type Draw, type DrawMember } from '@countercheck/contracts';
import { Link } from '@tanstack/react-router';
import { HouseName } from '../../../components/marks/index.ts';
import { Panel } from '../../../components/page/index.ts';
import { DataTable, type Column } from '../../../components/table/index.ts';
import { useListSearch } from '../../../lib/list-search.ts';
import { useRoute } from '../../../lib/query.ts';
import { percentText, workText } from '../words.ts';

const columnsFor = (purpose: Draw['purpose']): Column<DrawMember>[] => [
  {
    title: 'House',
    head: true,
    cell: (row) => <HouseName house={row} to={`/houses/${row.houseId}`} />,
  },
  { title: 'Rater', cell: (row) => row.rater },
  { title: 'Builder', cell: (row) => row.builder },
  { title: 'Place in the list', figure: true, cell: (row) => row.position.toLocaleString('en-US') },
  { title: 'Chance', figure: true, cell: (row) => percentText(row.chance) },
  {
    title: 'Work',
    cell: ({ work, address }) =>
      work ? (
        <Link
          to={purpose === 'file-review' ? `/file-reviews/${work.id}` : `/retests/${work.id}`}
          aria-label={`${purpose === 'file-review' ? 'Review' : 'Re-test'} of ${address}: ${workText(work)}`}
        >
          {workText(work)}
        </Link>
      ) : (
        'Not ordered'
      ),
  },
];

export function FilesPanel({ draw: { id, purpose } }: { draw: Draw }) {
  const { page } = useListSearch();
  const query = useRoute(sampling.members, { params: { id }, query: { page } }, { keepPrevious: true });
  return (
    <Panel title="Files drawn" flush>
      <DataTable
        caption="Files drawn"
        columns={columnsFor(purpose)}
        keyOf={(row) => String(row.position)}
        query={query}
        empty="Nothing was drawn"
      />
    </Panel>
  );
}
