import { houses, houseStages, type HouseSummary } from '@countercheck/contracts';
import { Link } from '@tanstack/react-router';
import { optionsOf } from '../../components/fields/index.ts';
import { Stage, stageWords, Tag } from '../../components/marks/index.ts';
import { Moment, Page } from '../../components/page/index.ts';
import { ChoiceFilter, DataTable, SearchFilter, type Column } from '../../components/table/index.ts';
import { oneOf, useListSearch } from '../../lib/list-search.ts';
import { useRoute } from '../../lib/query.ts';
import { useMe } from '../../lib/session.ts';

const columns: Column<HouseSummary>[] = [
  { title: 'House', head: true, cell: (house) => <Link to={`/my-houses/${house.id}`}>{house.address}</Link> },
  { title: 'Lot', cell: (house) => house.lot },
  { title: 'Community', cell: (house) => house.community.name },
  { title: 'Stage', cell: (house) => <Stage stage={house.stage} /> },
  {
    title: 'Open failed items',
    figure: true,
    cell: (house) => (house.openFailedItems > 0 ? <Tag tone="bad">{house.openFailedItems}</Tag> : '0'),
  },
  { title: 'Last change', cell: (house) => <Moment at={house.updatedAt} day /> },
];

/** A builder's own houses and where each stands. */
export default function HousesPage() {
  const { values, page } = useListSearch();
  const { builder } = useMe();
  const stage = oneOf(houseStages, values.stage);
  const query = useRoute(
    houses.list,
    { query: { page, search: values.search, ...(stage ? { stage } : {}) } },
    { keepPrevious: true },
  );
  const filtered = Boolean(values.search ?? stage);
  return (
    <Page title="My houses" lead={builder?.name}>
      <DataTable
        caption="My houses"
        query={query}
        columns={columns}
        keyOf={(house) => house.id}
        filters={
          <>
            <SearchFilter label="Address or lot" />
            <ChoiceFilter label="Stage" name="stage" options={optionsOf(stageWords)} none="Any stage" />
          </>
        }
        empty={filtered ? 'No house fits this filter' : 'No house of yours is registered yet'}
      />
    </Page>
  );
}
