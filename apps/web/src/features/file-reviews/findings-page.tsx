import { fileFindingStates, fileReviews, type ListedFinding } from '@countercheck/contracts';
import { RaterChoice } from '../../components/choosers/index.ts';
import { optionsOf } from '../../components/fields/index.ts';
import { HouseName } from '../../components/marks/index.ts';
import { Page } from '../../components/page/index.ts';
import { ChoiceFilter, DataTable, type Column } from '../../components/table/index.ts';
import { oneOf, useListSearch } from '../../lib/list-search.ts';
import { useRoute } from '../../lib/query.ts';
import { useMe, useRole } from '../../lib/session.ts';
import { findingStateWords } from '../../lib/words/quality.ts';
import { FindingCard } from './finding-card.tsx';
import './page/review.css';

/** What file reviews have found: a rater's own, or everybody's. */
export default function FindingsPage() {
  const { values, page, change } = useListSearch();
  const isRater = useRole('rater');
  const onDesk = useRole('quality', 'administrator');
  const { id: me } = useMe();
  const query = useRoute(
    fileReviews.findings,
    { query: { page, state: oneOf(fileFindingStates, values.state), raterId: values.raterId } },
    { keepPrevious: true },
  );
  const columns: Column<ListedFinding>[] = [
    {
      title: 'House',
      head: true,
      cell: ({ fileReviewId, house }) => (
        <HouseName house={house} to={onDesk ? `/file-reviews/${fileReviewId}` : undefined} />
      ),
    },
    ...(isRater ? [] : [{ title: 'Rater', cell: ({ rater }: ListedFinding) => rater.name }]),
    {
      title: 'Finding',
      cell: (finding) => <FindingCard finding={finding} own={isRater && finding.rater.id === me} />,
    },
  ];
  return (
    <Page
      title="Findings"
      lead={isRater ? 'What reviews found in your files. Answer, or appeal.' : 'What reviews of files found.'}
    >
      <DataTable
        caption="Findings"
        query={query}
        columns={columns}
        keyOf={({ id }) => id}
        filters={
          <>
            <ChoiceFilter
              label="State"
              name="state"
              none="Any state"
              options={optionsOf(findingStateWords)}
            />
            {!isRater && (
              <RaterChoice value={values.raterId ?? null} onChange={(raterId) => change({ raterId })} />
            )}
          </>
        }
        empty="No such finding"
      />
    </Page>
  );
}
