import type { UseQueryResult } from '@tanstack/react-query';
import { useListSearch } from '../../lib/list-search.ts';
import { sourceWords } from '../../lib/words/quality.ts';
import { RaterChoice } from '../choosers/index.ts';
import type { Option } from '../fields/index.ts';
import { HouseName, Tag } from '../marks/index.ts';
import { DateText } from '../page/index.ts';
import { ChoiceFilter, DataTable, SearchFilter, type Column } from '../table/index.ts';

/** What every look at a house for the second time has, whether at its file or at the house itself. */
interface SecondLook {
  id: string;
  house: { address: string; lot: string; community: string };
  rater: { name: string };
  source: keyof typeof sourceWords;
  dueOn: string;
  overdue: boolean;
}

interface SecondLookListProps<Row extends SecondLook> {
  caption: string;
  query: UseQueryResult<{ items: Row[]; total: number; page: number; pageSize: number }>;
  /** where the row's house leads */
  to: (row: Row) => string;
  /** what the one who measured first is called */
  rater: string;
  /** between the house and the rater */
  before?: Column<Row>[];
  after: Column<Row>[];
  /** what can be shown, and what is when nothing is chosen */
  shown: readonly Option[];
  none: string;
  empty: string;
}

/** Houses or files to be looked at a second time, the one due first on top. */
export function SecondLookList<Row extends SecondLook>(props: SecondLookListProps<Row>) {
  const { caption, query, to, rater, before = [], after, shown, none, empty } = props;
  const { values, change } = useListSearch();
  return (
    <DataTable
      caption={caption}
      query={query}
      keyOf={({ id }) => id}
      columns={[
        {
          title: 'House',
          head: true,
          cell: (row) => <HouseName house={row.house} to={to(row)} />,
        },
        ...before,
        { title: rater, cell: (row) => row.rater.name },
        { title: 'Why', cell: (row) => sourceWords[row.source] },
        {
          title: 'Due',
          cell: (row) => (
            <>
              <DateText date={row.dueOn} /> {row.overdue && <Tag tone="bad">Overdue</Tag>}
            </>
          ),
        },
        ...after,
      ]}
      filters={
        <>
          <SearchFilter label="Address or lot" />
          <ChoiceFilter label="Show" name="which" none={none} options={shown} />
          <RaterChoice
            label={rater}
            value={values.raterId ?? null}
            onChange={(raterId) => change({ raterId })}
          />
        </>
      }
      empty={empty}
    />
  );
}
