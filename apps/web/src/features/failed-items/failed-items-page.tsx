import { failedItems, failedItemStates, type FailedItem } from '@countercheck/contracts';
import { Link } from '@tanstack/react-router';
import { BuilderChoice } from '../../components/choosers/index.ts';
import { optionsOf } from '../../components/fields/index.ts';
import { FailureReason, Tag } from '../../components/marks/index.ts';
import { ButtonLink, Moment, Page } from '../../components/page/index.ts';
import { ChoiceFilter, DataTable, type Column } from '../../components/table/index.ts';
import { oneOf, useListSearch } from '../../lib/list-search.ts';
import { useRoute } from '../../lib/query.ts';
import { useRole } from '../../lib/session.ts';
import { tradeWords } from '../../lib/words/people.ts';
import { failedStateTones, failedStateWords } from '../../lib/words/work.ts';

const states = [...failedItemStates, 'not_closed'] as const;
const stateOptions = [{ value: 'not_closed', label: 'Not closed' }, ...optionsOf(failedStateWords)];

const columns: Column<FailedItem>[] = [
  {
    title: 'Item',
    head: true,
    cell: (row) => (
      <>
        {row.title}
        <span className="small soft"> {row.subjectLabel}</span>
      </>
    ),
  },
  { title: 'House', cell: (row) => <Link to={`/houses/${row.house.id}`}>{row.house.address}</Link> },
  { title: 'Builder', cell: (row) => row.house.builder.name },
  { title: 'By how much', cell: (row) => <FailureReason item={row} /> },
  { title: 'Trade', cell: (row) => tradeWords[row.trade] ?? row.trade },
  { title: 'Since', cell: (row) => <Moment at={row.openedAt} day /> },
  { title: 'Times', figure: true, cell: (row) => row.timesFailed },
  {
    title: 'State',
    cell: (row) => <Tag tone={failedStateTones[row.state]}>{failedStateWords[row.state]}</Tag>,
  },
];

export default function FailedItemsPage() {
  const { values, page, change } = useListSearch();
  const seesBoard = useRole('quality', 'office', 'administrator');
  const query = useRoute(
    failedItems.list,
    {
      query: {
        page,
        state: oneOf(states, values.state),
        builderId: values.builderId,
        trade: values.trade,
      },
    },
    { keepPrevious: true },
  );
  return (
    <Page
      title="Failed items"
      actions={seesBoard && <ButtonLink to="/failed-items/board">What fails, and how often</ButtonLink>}
    >
      <DataTable
        caption="Failed items"
        columns={columns}
        keyOf={(row) => row.id}
        query={query}
        filters={
          <>
            <ChoiceFilter label="State" name="state" none="Any state" options={stateOptions} />
            <ChoiceFilter label="Trade" name="trade" none="Any trade" options={optionsOf(tradeWords)} />
            <BuilderChoice
              placeholder="Any builder"
              value={values.builderId ?? null}
              onChange={(builderId) => change({ builderId })}
            />
          </>
        }
        empty="No failed item found"
      />
    </Page>
  );
}
