import { replay, type ReplayHouse, type ReplayResult } from '@countercheck/contracts';
import { HouseName, Stage, Tag } from '../../components/marks/index.ts';
import { Panel } from '../../components/page/index.ts';
import { ChoiceFilter, DataTable, type Column } from '../../components/table/index.ts';
import { oneOf, useListSearch } from '../../lib/list-search.ts';
import { useRoute } from '../../lib/query.ts';
import { VerdictOf } from './change-mark.tsx';

const differenceWords: Record<number, string> = { 1: 'One more', 0: 'As it was', [-1]: 'One fewer' };

const columns: Column<ReplayHouse>[] = [
  {
    title: 'House',
    head: true,
    cell: (row) => <HouseName house={row} to={`/houses/${row.id}`} />,
  },
  { title: 'Builder', cell: (row) => row.builder },
  { title: 'Rater', cell: (row) => row.rater ?? '–' },
  { title: 'Stage', cell: (row) => <Stage stage={row.stage} /> },
  {
    title: 'Reinspection',
    cell: (row) => (
      <Tag tone={row.reinspection > 0 ? 'bad' : row.reinspection < 0 ? 'good' : 'plain'}>
        {differenceWords[row.reinspection]}
      </Tag>
    ),
  },
  {
    title: 'Verdicts that change',
    cell: (row) =>
      row.changes.length === 0 ? (
        'None, as it stands now'
      ) : (
        <ul className="plain-list">
          {row.changes.map((each) => (
            <li key={`${each.item} ${each.subjectLabel}`}>
              {each.title}, {each.subjectLabel}: <VerdictOf status={each.before} /> →{' '}
              <VerdictOf status={each.after} />
            </li>
          ))}
        </ul>
      ),
  },
];

const differences = [
  { value: 'more', label: 'One more' },
  { value: 'fewer', label: 'One fewer' },
  { value: 'same', label: 'As it was' },
] as const;

/** The houses behind the numbers, page by page. */
export function HousesPanel({ id, result }: { id: string; result: ReplayResult }) {
  const { values, page } = useListSearch();
  const reinspection = oneOf(['more', 'fewer', 'same'], values.reinspection);
  const query = useRoute(
    replay.houses,
    { params: { id }, query: { page, reinspection, item: values.item, builderId: values.builderId } },
    { keepPrevious: true },
  );
  const items = new Map(result.items.map(({ item, title }) => [item, title]));
  return (
    <Panel title="Houses affected">
      <DataTable
        caption="Houses affected"
        columns={columns}
        keyOf={(row) => row.id}
        query={query}
        filters={
          <>
            <ChoiceFilter label="Reinspection" name="reinspection" none="Any" options={differences} />
            <ChoiceFilter
              label="Item"
              name="item"
              none="Any item"
              options={[...items].map(([value, label]) => ({ value, label }))}
            />
            <ChoiceFilter
              label="Builder"
              name="builderId"
              none="Any builder"
              options={result.builders.map(({ id, name }) => ({ value: id ?? '', label: name }))}
            />
          </>
        }
        empty="No house is affected"
      />
    </Panel>
  );
}
