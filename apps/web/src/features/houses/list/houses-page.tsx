import { builders, houses, houseStages, type HouseSummary } from '@countercheck/contracts';
import { Link } from '@tanstack/react-router';
import { BuilderChoice } from '../../../components/choosers/index.ts';
import { Quantity } from '../../../components/fields/index.ts';
import { Stage, stageOrder, stageWords } from '../../../components/marks/index.ts';
import { ButtonLink, Page } from '../../../components/page/index.ts';
import { ChoiceFilter, DataTable, SearchFilter, type Column } from '../../../components/table/index.ts';
import { oneOf, useListSearch } from '../../../lib/list-search.ts';
import { useRoute } from '../../../lib/query.ts';
import { useRole } from '../../../lib/session.ts';

const orders = ['updated', 'address', 'lot'] as const;
const orderOptions = [
  { value: 'address', label: 'Address' },
  { value: 'lot', label: 'Lot' },
];
const stageOptions = stageOrder.map((stage) => ({ value: stage, label: stageWords[stage] }));
const columns: Column<HouseSummary>[] = [
  { title: 'Address', head: true, cell: (row) => <Link to={`/houses/${row.id}`}>{row.address}</Link> },
  { title: 'Lot', cell: (row) => row.lot },
  { title: 'Community', cell: (row) => row.community.name },
  { title: 'Builder', cell: (row) => row.builder.name },
  { title: 'Plan', cell: (row) => row.plan?.name ?? '–' },
  {
    title: 'Floor area',
    figure: true,
    cell: (row) => <Quantity kind="floorArea" value={row.conditionedFloorArea} />,
  },
  { title: 'Stage', cell: (row) => <Stage stage={row.stage} /> },
  { title: 'Failed items', figure: true, cell: (row) => row.openFailedItems },
];

export default function HousesPage() {
  const { values, page } = useListSearch();
  const keeper = useRole('office', 'administrator');
  const query = useRoute(
    houses.list,
    {
      query: {
        page,
        search: values.search,
        stage: oneOf(houseStages, values.stage),
        builderId: values.builderId,
        communityId: values.communityId,
        order: oneOf(orders, values.order),
      },
    },
    { keepPrevious: true },
  );
  return (
    <Page
      title="Houses"
      actions={
        keeper && (
          <>
            <ButtonLink to="/houses/import" variant="default">
              Load from a file
            </ButtonLink>
            <ButtonLink to="/houses/new">Register a house</ButtonLink>
          </>
        )
      }
    >
      <DataTable
        caption="Houses"
        columns={columns}
        keyOf={(row) => row.id}
        query={query}
        filters={<Filters />}
        empty="No house found"
      />
    </Page>
  );
}

function Filters() {
  const { values, change } = useListSearch();
  const builder = useRoute(
    builders.show,
    { params: { id: values.builderId ?? '' } },
    { enabled: Boolean(values.builderId) },
  );
  return (
    <>
      <SearchFilter label="Address or lot" />
      <ChoiceFilter label="Stage" name="stage" options={stageOptions} none="Any stage" />
      <BuilderChoice
        placeholder="Any builder"
        value={values.builderId ?? null}
        onChange={(builderId) => change({ builderId, communityId: null })}
      />
      {builder.data && (
        <ChoiceFilter
          label="Community"
          name="communityId"
          none="Any community"
          options={builder.data.communityList.map(({ id, name }) => ({ value: id, label: name }))}
        />
      )}
      <ChoiceFilter label="Order" name="order" options={orderOptions} none="Changed last" />
    </>
  );
}
