import { failedBoard, failedGroupings, type FailedGroup } from '@countercheck/contracts';
import { Panel } from '../../../components/page/index.ts';
import { ChoiceFilter, DataTable, type Column } from '../../../components/table/index.ts';
import { optionsOf } from '../../../components/fields/index.ts';
import { oneOf, useListSearch } from '../../../lib/list-search.ts';
import { useRoute } from '../../../lib/query.ts';
import { tradeWords } from '../../../lib/words/people.ts';
import type { BoardFilter } from './filter.ts';
import { ParetoChart } from './pareto-chart.tsx';
import { percent } from './percent.ts';

const groupingWords = { item: 'Item', builder: 'Builder', trade: 'Trade', community: 'Community' };

const columns: Column<FailedGroup>[] = [
  { title: 'Rank', figure: true, cell: ({ rank }) => rank },
  { title: 'What', head: true, cell: ({ label }) => tradeWords[label] ?? label },
  { title: 'Failed', figure: true, cell: ({ failed }) => failed },
  { title: 'Times', figure: true, cell: ({ times }) => times },
  { title: 'Share', figure: true, cell: ({ share }) => percent(share) },
  { title: 'Added up', figure: true, cell: ({ cumulative }) => percent(cumulative) },
  { title: 'Open', figure: true, cell: ({ open }) => open },
  { title: 'Open to 7 days', figure: true, cell: ({ openWeek }) => openWeek },
  { title: '8–30 days', figure: true, cell: ({ openMonth }) => openMonth },
  { title: '31–90 days', figure: true, cell: ({ openQuarter }) => openQuarter },
  { title: 'Over 90 days', figure: true, cell: ({ openLonger }) => openLonger },
  {
    title: 'Oldest',
    figure: true,
    cell: ({ oldestDays }) => (oldestDays === null ? '–' : `${oldestDays} d`),
  },
];

/** Failed items by group, the largest first, drawn and in figures. */
export function GroupsPart({ filter }: { filter: BoardFilter }) {
  const { values, page } = useListSearch();
  const by = oneOf(failedGroupings, values.by) ?? 'item';
  const query = useRoute(failedBoard.groups, { query: { ...filter, by, page } }, { keepPrevious: true });
  const rows = query.data?.items ?? [];
  return (
    <>
      {rows.length > 1 && (
        <Panel title="Which few make most of it">
          <ParetoChart groups={rows} />
        </Panel>
      )}
      <DataTable
        caption="Failed items by group"
        columns={columns}
        keyOf={({ key }) => key}
        query={query}
        filters={<ChoiceFilter label="By" name="by" options={optionsOf(groupingWords)} />}
        empty="Nothing failed in this time"
      />
    </>
  );
}
