import { review, type HouseSummary } from '@countercheck/contracts';
import { Link } from '@tanstack/react-router';
import { Moment, Page } from '../../components/page/index.ts';
import { DataTable, SearchFilter, type Column } from '../../components/table/index.ts';
import { useListSearch } from '../../lib/list-search.ts';
import { useRoute } from '../../lib/query.ts';

const columns: Column<HouseSummary>[] = [
  { title: 'House', head: true, cell: (house) => <Link to={`/review/${house.id}`}>{house.address}</Link> },
  { title: 'Lot', cell: (house) => house.lot },
  { title: 'Community', cell: (house) => house.community.name },
  { title: 'Builder', cell: (house) => house.builder.name },
  { title: 'Open failed items', figure: true, cell: (house) => house.openFailedItems },
  { title: 'Revision', figure: true, cell: (house) => house.revision },
  { title: 'Waiting since', cell: (house) => <Moment at={house.updatedAt} /> },
];

/** Files waiting for the quality manager, the oldest first. */
export default function QueuePage() {
  const { values, page } = useListSearch();
  const query = useRoute(review.queue, { query: { page, search: values.search } }, { keepPrevious: true });
  return (
    <Page title="Review" lead="Files waiting for you, the oldest first">
      <DataTable
        caption="Files waiting for review"
        query={query}
        columns={columns}
        keyOf={(house) => house.id}
        filters={<SearchFilter label="Address or lot" />}
        empty={values.search ? 'No file fits this filter' : 'No file waits for review'}
      />
    </Page>
  );
}
