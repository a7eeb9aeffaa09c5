import { failedBoard, firstTimeGroupings, type FirstTime } from '@countercheck/contracts';
import { optionsOf } from '../../../components/fields/index.ts';
import { ChoiceFilter, DataTable, type Column } from '../../../components/table/index.ts';
import { oneOf, useListSearch } from '../../../lib/list-search.ts';
import { useRoute } from '../../../lib/query.ts';
import type { BoardFilter } from './filter.ts';
import { percent } from './percent.ts';

const groupingWords = { builder: 'Builder', installer: 'Installer', rater: 'Rater', item: 'Item' };

const columns: Column<FirstTime>[] = [
  { title: 'Who or what', head: true, cell: ({ label }) => label },
  { title: 'Decided', figure: true, cell: ({ decided }) => decided },
  { title: 'Never failed', figure: true, cell: ({ passed }) => passed },
  { title: 'Rate', figure: true, cell: ({ rate }) => percent(rate) },
  { title: '95 % interval', figure: true, cell: ({ low, high }) => `${percent(low)} – ${percent(high)}` },
];

/** The share that passed without ever failing, with intervals that say how little a few houses tell. */
export function FirstTimeTable({ filter }: { filter: BoardFilter }) {
  const { values, page } = useListSearch();
  const by = oneOf(firstTimeGroupings, values.by) ?? 'builder';
  const query = useRoute(failedBoard.firstTime, { query: { ...filter, by, page } }, { keepPrevious: true });
  return (
    <>
      <DataTable
        caption="Passed the first time"
        columns={columns}
        keyOf={({ key }) => key}
        query={query}
        filters={<ChoiceFilter label="By" name="by" options={optionsOf(groupingWords)} />}
        empty="Nothing was decided in this time"
      />
      <p className="small soft">
        Counted are items of houses first visited in this time, once for each part of the house. The intervals
        are exact (Clopper-Pearson); they take items for independent, and items of one house are less so: the
        truth is wider. A difference between two rows is no finding about a person.
      </p>
    </>
  );
}
